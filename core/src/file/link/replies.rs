//! Replies in a link: as a section of a plan's, and as a link of their own.
//!
//! A reply's link is an envelope with a mark of its own, so that neither is taken for the other:
//!
//! ```text
//! link      texts | reply
//! section   texts | their number | each reply
//! texts     length | name, date, job and questions of each reply, each closed by a zero
//! reply     number of answers | version of the plan: its form, its bytes | revision
//!           columns of what the items are, of their numbers, of whether they are asked about
//!           column of the forms of digests, then their bytes
//! digest    of form 0, of before, 4 bytes, lowest first; of form 1, half a SHA-256, 16 bytes
//! ```
//!
//! Before, a reply had digests of form 0 alone, without their forms, and did not say what the job was
//! called: links of replies of version 1 and a section of their own, which are read for ever.
//!
//! Replies keep their texts to themselves: an older reader passes over the whole section, and the
//! texts of the others stand where it expects them.

use super::columns::{Reader, Writer};
use super::settings::at;
use super::words::Texts;
use super::{LinkError, envelope};
use crate::plan::edit::{MOST_ANSWERS, MOST_REPLIES, tidied};
use crate::plan::{Answer, Digest, DropId, Item, LevelId, Plan, Reply, Said, WallId};

type Read<T> = Result<T, LinkError>;

/// A reply as the bytes of a link of its own. The same reply gives the same bytes.
///
/// # Errors
/// [`LinkError::TooLarge`] for one with more than 64 KB to say.
pub fn write_reply(reply: &Reply) -> Read<Vec<u8>> {
    let mut out = Writer::default();
    put_one(reply, &mut out);
    envelope::sealed(envelope::REPLY, &closed(out))
}

/// The reply in the bytes of a link. Total on any bytes; never unpacks more than 64 KB.
///
/// # Errors
/// [`LinkError`] where there is no reply to read; [`LinkError::NotALink`] for the link of a plan.
pub fn read_reply(bytes: &[u8]) -> Read<Reply> {
    let (version, contents) = envelope::opened(envelope::REPLY, bytes)?;
    let mut section = Reader::new(&contents);
    let texts_length = section.count(contents.len())?;
    let mut texts = Texts::new(section.take(texts_length)?);
    let form = if version == 1 {
        Form::Earlier
    } else {
        Form::Now
    };
    let reply = tidied(&take_one(form, &mut section, &mut texts)?);
    let sound = section.is_empty() && texts.is_empty();
    match sound && !reply.name.is_empty() && !reply.answers.is_empty() {
        true => Ok(reply),
        false => Err(LinkError::Altered),
    }
}

/// Whether bytes claim to be a reply, not a plan.
pub fn is_reply(bytes: &[u8]) -> bool {
    envelope::claims(envelope::REPLY, bytes)
}

pub(super) fn put(plan: &Plan, out: &mut Writer) {
    if plan.replies.is_empty() {
        return;
    }
    let mut own = Writer::default();
    own.number(plan.replies.len() as u64);
    plan.replies
        .iter()
        .for_each(|reply| put_one(reply, &mut own));
    out.bytes.extend(closed(own));
}

/// How replies are written.
#[derive(Clone, Copy, PartialEq)]
enum Form {
    /// As they were before.
    Earlier,
    /// As they are now.
    Now,
}

pub(super) fn take(plan: &mut Plan, section: &mut Reader, _: &mut Texts) -> Read<()> {
    take_all(Form::Now, plan, section)
}

pub(super) fn take_earlier(plan: &mut Plan, section: &mut Reader, _: &mut Texts) -> Read<()> {
    take_all(Form::Earlier, plan, section)
}

fn take_all(form: Form, plan: &mut Plan, section: &mut Reader) -> Read<()> {
    if section.is_empty() {
        return Ok(());
    }
    let length = section.number()?;
    let length = usize::try_from(length).map_err(|_| LinkError::Altered)?;
    let mut texts = Texts::new(section.take(length)?);
    for _ in 0..section.count(MOST_REPLIES)? {
        plan.replies.push(take_one(form, section, &mut texts)?);
    }
    match texts.is_empty() {
        true => Ok(()),
        false => Err(LinkError::Altered),
    }
}

/// The texts of a writer, their length before them, then its bytes.
fn closed(own: Writer) -> Vec<u8> {
    let mut out = Writer::default();
    out.number(own.texts.len() as u64);
    out.bytes.extend(own.texts);
    out.bytes.extend(own.bytes);
    out.bytes
}

fn put_one(reply: &Reply, out: &mut Writer) {
    let answers = &reply.answers;
    out.number(answers.len() as u64);
    out.number(form_of(reply.version) as u64);
    put_digest(reply.version, out);
    out.number(u64::from(reply.revision));
    out.of(answers, |answer| sort_and_number(answer.item).0);
    out.of(answers, |answer| i64::from(sort_and_number(answer.item).1));
    out.of(answers, |answer| i64::from(answer.said != Said::Agreed));
    out.of(answers, |answer| form_of(answer.digest));
    answers
        .iter()
        .for_each(|answer| put_digest(answer.digest, out));
    out.text(&reply.name);
    out.text(&reply.date);
    out.text(&reply.job);
    for answer in answers {
        if let Said::Asked(question) = &answer.said {
            out.text(question);
        }
    }
}

fn take_one(form: Form, section: &mut Reader, texts: &mut Texts) -> Read<Reply> {
    let count = section.count(MOST_ANSWERS)?;
    let version = match form {
        Form::Earlier => 0,
        Form::Now => section.number()? as i64,
    };
    let version = take_digest(version, section)?;
    let revision = u32::try_from(section.number()?).map_err(|_| LinkError::Altered)?;
    let sorts = section.column(count)?;
    let numbers: Vec<u32> = section.column_of(count)?;
    let asked = section.column(count)?;
    let forms = match form {
        Form::Earlier => vec![0; count],
        Form::Now => section.column(count)?,
    };
    let digests = forms.iter().map(|form| take_digest(*form, section));
    let digests = digests.collect::<Read<Vec<Digest>>>()?;
    let (name, date) = (texts.next()?, texts.next()?);
    let job = match form {
        Form::Earlier => String::new(),
        Form::Now => texts.next()?,
    };
    let mut answers = Vec::with_capacity(count);
    for place in 0..count {
        answers.push(Answer {
            item: item(at(&sorts, place)?, at(&numbers, place)?)?,
            digest: at(&digests, place)?,
            said: match at(&asked, place)? {
                0 => Said::Agreed,
                1 => Said::Asked(texts.next()?),
                _ => return Err(LinkError::TooNew),
            },
        });
    }
    Ok(Reply {
        name,
        date,
        revision,
        job,
        version,
        answers,
    })
}

fn form_of(digest: Digest) -> i64 {
    match digest {
        Digest::Earlier(_) => 0,
        Digest::Shown(_) => 1,
    }
}

fn put_digest(digest: Digest, out: &mut Writer) {
    match digest {
        Digest::Earlier(sum) => out.bytes.extend(sum.to_le_bytes()),
        Digest::Shown(half) => out.bytes.extend(half),
    }
}

fn take_digest(form: i64, section: &mut Reader) -> Read<Digest> {
    match form {
        0 => four(section).map(Digest::Earlier),
        1 => {
            let half = section.take(16)?.try_into();
            half.map(Digest::Shown).map_err(|_| LinkError::Altered)
        }
        _ => Err(LinkError::TooNew),
    }
}

fn four(section: &mut Reader) -> Read<u32> {
    let bytes = section.take(4)?.try_into();
    bytes
        .map(u32::from_le_bytes)
        .map_err(|_| LinkError::Altered)
}

fn sort_and_number(item: Item) -> (i64, u32) {
    match item {
        Item::Drop(id) => (0, id.0),
        Item::Wall(id) => (1, id.0),
        Item::Joists(id) => (2, id.0),
        Item::Closet => (3, 0),
        Item::Date => (4, 0),
        Item::Job => (5, 0),
    }
}

fn item(sort: i64, number: u32) -> Read<Item> {
    Ok(match (sort, number) {
        (0, id) => Item::Drop(DropId(id)),
        (1, id) => Item::Wall(WallId(id)),
        (2, id) => Item::Joists(LevelId(id)),
        (3, 0) => Item::Closet,
        (4, 0) => Item::Date,
        (5, 0) => Item::Job,
        _ => return Err(LinkError::TooNew),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::file::link::{self, Privacy};
    use crate::plan::edit::sample;
    use proptest::prelude::*;

    /// Replies of random plans.
    fn replies(seed: u64) -> Vec<Reply> {
        sample::plan(seed, 400).replies
    }

    #[test]
    fn a_plan_is_no_reply_and_a_reply_no_plan() {
        let plan = link::write(&Plan::new(), Privacy::Everything).unwrap();
        assert!(!is_reply(&plan));
        assert_eq!(read_reply(&plan), Err(LinkError::NotALink));
        let reply = (0..).find_map(|seed| replies(seed).pop()).unwrap();
        let bytes = write_reply(&reply).unwrap();
        assert!(is_reply(&bytes));
        assert_eq!(link::read(&bytes), Err(LinkError::NotALink));
    }

    /// A reader that does not know the section, as those before it, still finds every text.
    #[test]
    fn the_section_keeps_its_texts_to_itself() {
        let with = (0..).map(|seed| sample::plan(seed, 300));
        let with = with.into_iter().find(|plan| !plan.replies.is_empty());
        let with = with.unwrap();
        let without = Plan {
            replies: Vec::new(),
            ..with.clone()
        };
        let mut texts = [Writer::default(), Writer::default()];
        put(&with, &mut texts[0]);
        put(&without, &mut texts[1]);
        assert!(!texts[0].bytes.is_empty());
        assert!(texts[0].texts.is_empty());
        assert!(texts[1].bytes.is_empty());
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(100))]

        #[test]
        fn every_reply_comes_back(seed: u64) {
            for reply in replies(seed) {
                let bytes = write_reply(&reply).unwrap();
                prop_assert_eq!(read_reply(&bytes), Ok(reply));
                prop_assert_eq!(read_reply(&bytes[..bytes.len() - 1]), Err(LinkError::Cut));
            }
        }

        #[test]
        fn any_contents_are_read_or_refused(
            seed: u64,
            scratches in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..6),
        ) {
            for reply in replies(seed) {
                let mut own = Writer::default();
                put_one(&reply, &mut own);
                let mut contents = closed(own);
                for (place, byte) in &scratches {
                    let place = place.index(contents.len());
                    contents[place] = *byte;
                }
                let bytes = envelope::sealed(envelope::REPLY, &contents).unwrap();
                if let Ok(read) = read_reply(&bytes) {
                    prop_assert_eq!(read_reply(&write_reply(&read).unwrap()), Ok(read));
                }
            }
        }
    }
}
