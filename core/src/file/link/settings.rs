//! Sections of the job, its rules, its catalogue, findings set aside and the next numbers.

use super::LinkError;
use super::codes::Coded;
use super::columns::{Reader, Writer};
use super::words::Texts;
use crate::file::mend;
use crate::plan::{CableSpec, Catalogue, Dates, Dismissal, Plan};
use crate::rules::{RuleBook, RuleId, RuleSet};
use crate::units::{Mm, Size, Units};

type Done = Result<(), LinkError>;

/// More entries than any of these lists has.
const MOST: usize = 10_000;

pub(super) fn put_job(plan: &Plan, out: &mut Writer) {
    let metric = u64::from(plan.units == Units::Metric);
    out.number(metric | u64::from(plan.labels_frozen) << 1);
    out.number(u64::from(plan.revision));
    for text in [&plan.title, &plan.note, &plan.date] {
        out.text(text);
    }
}

pub(super) fn take_job(plan: &mut Plan, section: &mut Reader, texts: &mut Texts) -> Done {
    let flags = section.number()?;
    if flags > 3 {
        return Err(LinkError::TooNew);
    }
    plan.units = match flags & 1 {
        0 => Units::Imperial,
        _ => Units::Metric,
    };
    plan.labels_frozen = flags & 2 != 0;
    plan.revision = u32::try_from(section.number()?).map_err(|_| LinkError::Altered)?;
    plan.title = texts.next()?;
    plan.note = texts.next()?;
    plan.date = texts.next()?;
    Ok(())
}

/// When each part of the job is due. The texts stay in the section, which an older reader passes over.
pub(super) fn put_dates(plan: &Plan, out: &mut Writer) {
    if plan.dates.is_empty() {
        return;
    }
    let mut own = Writer::default();
    for (_, date) in plan.dates.named() {
        own.text(date);
    }
    out.bytes.extend(own.texts);
}

pub(super) fn take_dates(plan: &mut Plan, section: &mut Reader, _: &mut Texts) -> Done {
    if section.is_empty() {
        return Ok(());
    }
    let mut texts = Texts::new(section.rest());
    plan.dates = Dates {
        drill: texts.next()?,
        pull: texts.next()?,
        cover: texts.next()?,
        trim_out: texts.next()?,
    };
    match texts.is_empty() {
        true => Ok(()),
        false => Err(LinkError::Altered),
    }
}

pub(super) fn put_rules(plan: &Plan, out: &mut Writer) {
    let changed = &plan.rules.changed;
    let choice = choice(&plan.rules);
    if choice == 0 && changed.is_empty() {
        return;
    }
    out.number(choice);
    out.number(changed.len() as u64);
    changed.keys().for_each(|id| out.text(id.key()));
    out.reals(&changed.values().copied().collect::<Vec<_>>());
}

pub(super) fn take_rules(plan: &mut Plan, section: &mut Reader, texts: &mut Texts) -> Done {
    if section.is_empty() {
        return Ok(());
    }
    let choice = section.number()?;
    let count = section.count(RuleId::ALL.len())?;
    let mut rules = Vec::new();
    for _ in 0..count {
        let key = texts.next()?;
        let known = RuleId::ALL.iter().find(|id| id.key() == key);
        rules.push(*known.ok_or(LinkError::TooNew)?);
    }
    plan.rules.changed = rules.into_iter().zip(section.reals(count)?).collect();
    choose(&mut plan.rules, choice)
}

/// What stands in a number of choice that is not 0: it says which book, which basis, and whether
/// own rules are in force.
const SAID: u64 = 1 << 9;

/// The choice of rules as one number. 0 is the usual book, whose own copy is in force where a
/// limit was changed.
fn choice(rules: &RuleSet) -> u64 {
    let (book, basis) = (rules.book.code() as u64, rules.basis.code() as u64);
    match (book, basis, rules.own == rules.has_own_limits()) {
        (0, 0, true) => 0,
        _ => SAID | u64::from(rules.own) << 8 | basis << 4 | book,
    }
}

fn choose(rules: &mut RuleSet, choice: u64) -> Done {
    if choice == 0 {
        rules.own = rules.has_own_limits();
        return Ok(());
    }
    if choice >> 9 != 1 {
        return Err(LinkError::TooNew);
    }
    let book = |choice: u64| RuleBook::of_code((choice & 15) as i64);
    rules.book = book(choice)?;
    rules.basis = book(choice >> 4)?;
    rules.own = choice >> 8 & 1 == 1;
    Ok(())
}

/// The catalogue that a link of version 1 leaves out. It stays as it is when the product's own
/// standard catalogue changes.
fn usual_catalogue() -> Catalogue {
    let cable = |name: &str, letter, diameter, outdoor| CableSpec {
        name: name.to_string(),
        letter,
        diameter: Size(diameter),
        outdoor,
        twisted_pair: CableSpec::is_usually_twisted_pair(name),
        reel: Mm(304_800),
        part_reels: Vec::new(),
        on_hand: 0,
    };
    let eighths = [4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 11.0, 12.0];
    Catalogue {
        cables: vec![
            cable("Cat 6", 'd', 6.0, false),
            cable("Cat 6A", 'a', 7.5, false),
            cable("RG-6", 'x', 6.9, false),
            cable("Cat 6 outdoor", 'o', 6.5, true),
        ],
        bits: eighths.map(|n| Size::inches(n / 8.0)).to_vec(),
    }
}

pub(super) fn put_catalogue(plan: &Plan, out: &mut Writer) {
    let mut told = plan.catalogue.clone();
    // Reels on hand, and what is twisted pair against its name, have sections of their own.
    for cable in &mut told.cables {
        cable.on_hand = 0;
        cable.twisted_pair = CableSpec::is_usually_twisted_pair(&cable.name);
    }
    if told == usual_catalogue() {
        return;
    }
    let Catalogue { cables, bits } = &told;
    out.number(cables.len() as u64);
    cables.iter().for_each(|cable| out.text(&cable.name));
    out.of(cables, |cable| i64::from(u32::from(cable.letter)));
    out.reals(&cables.iter().map(|c| c.diameter.0).collect::<Vec<_>>());
    out.of(cables, |cable| i64::from(cable.outdoor));
    out.of(cables, |cable| i64::from(cable.reel.0));
    out.of(cables, |cable| cable.part_reels.len() as i64);
    let parts: Vec<Mm> = cables.iter().flat_map(|c| c.part_reels.clone()).collect();
    out.of(&parts, |reel| i64::from(reel.0));
    out.number(bits.len() as u64);
    out.reals(&bits.iter().map(|bit| bit.0).collect::<Vec<_>>());
}

pub(super) fn take_catalogue(plan: &mut Plan, section: &mut Reader, texts: &mut Texts) -> Done {
    plan.catalogue = usual_catalogue();
    if section.is_empty() {
        return Ok(());
    }
    let count = section.count(MOST)?;
    let names: Result<Vec<String>, LinkError> = (0..count).map(|_| texts.next()).collect();
    let letters: Vec<u32> = section.column_of(count)?;
    let diameters = section.reals(count)?;
    let outdoors = section.column(count)?;
    let reels: Vec<i32> = section.column_of(count)?;
    let parts = section.column(count)?;
    let mut part_reels = Lists::take(section, &parts, MOST)?;
    let mut cables = Vec::new();
    for (place, name) in names?.into_iter().enumerate() {
        cables.push(CableSpec {
            twisted_pair: CableSpec::is_usually_twisted_pair(&name),
            name,
            letter: char::from_u32(at(&letters, place)?).ok_or(LinkError::Altered)?,
            diameter: Size(at(&diameters, place)?),
            outdoor: at(&outdoors, place)? != 0,
            reel: Mm(at(&reels, place)?),
            part_reels: part_reels.next(at(&parts, place)?).map(Mm).collect(),
            on_hand: 0,
        });
    }
    let bits = section.count(MOST)?;
    let bits = section.reals(bits)?.into_iter().map(Size).collect();
    plan.catalogue = Catalogue { cables, bits };
    Ok(())
}

/// Full reels in the van, kind by kind.
pub(super) fn put_on_hand(plan: &Plan, out: &mut Writer) {
    let cables = &plan.catalogue.cables;
    if cables.iter().any(|cable| cable.on_hand > 0) {
        out.of(cables, |cable| i64::from(cable.on_hand));
    }
}

pub(super) fn take_on_hand(plan: &mut Plan, section: &mut Reader, _: &mut Texts) -> Done {
    if section.is_empty() {
        return Ok(());
    }
    let counts: Vec<u16> = section.column_of(plan.catalogue.cables.len())?;
    for (cable, on_hand) in plan.catalogue.cables.iter_mut().zip(counts) {
        cable.on_hand = on_hand;
    }
    Ok(())
}

/// Which kinds are twisted pair, if any is against its name.
pub(super) fn put_twisted_pair(plan: &Plan, out: &mut Writer) {
    let cables = &plan.catalogue.cables;
    let against =
        |cable: &CableSpec| cable.twisted_pair != CableSpec::is_usually_twisted_pair(&cable.name);
    if cables.iter().any(against) {
        out.of(cables, |cable| i64::from(cable.twisted_pair));
    }
}

pub(super) fn take_twisted_pair(plan: &mut Plan, section: &mut Reader, _: &mut Texts) -> Done {
    if section.is_empty() {
        return Ok(());
    }
    let said = section.column(plan.catalogue.cables.len())?;
    for (cable, said) in plan.catalogue.cables.iter_mut().zip(said) {
        cable.twisted_pair = said != 0;
    }
    Ok(())
}

pub(super) fn put_dismissed(plan: &Plan, out: &mut Writer) {
    if plan.dismissed.is_empty() {
        return;
    }
    out.number(plan.dismissed.len() as u64);
    for dismissal in &plan.dismissed {
        out.text(&dismissal.key);
        out.text(&dismissal.reason);
    }
}

pub(super) fn take_dismissed(plan: &mut Plan, section: &mut Reader, texts: &mut Texts) -> Done {
    if section.is_empty() {
        return Ok(());
    }
    for _ in 0..section.count(MOST)? {
        plan.dismissed.push(Dismissal {
            key: texts.next()?,
            reason: texts.next()?,
        });
    }
    Ok(())
}

/// How far each next number is beyond the largest in use; mostly not at all.
pub(super) fn put_numbers(plan: &Plan, out: &mut Writer) {
    let ahead = mend::series(plan).map(|(next, least)| i64::from(next) - i64::from(least));
    if ahead.iter().any(|ahead| *ahead != 0) {
        out.column(&ahead);
    }
}

pub(super) fn take_numbers(plan: &mut Plan, section: &mut Reader, _: &mut Texts) -> Done {
    let ahead = match section.is_empty() {
        true => vec![0; 8],
        false => section.column(8)?,
    };
    let least = mend::series(plan).map(|(_, least)| least);
    let mut next = [0; 8];
    for ((next, least), ahead) in next.iter_mut().zip(least).zip(ahead) {
        let number = i64::from(least).wrapping_add(ahead);
        *next = u32::try_from(number).map_err(|_| LinkError::Altered)?;
    }
    mend::set_series(plan, next);
    Ok(())
}

/// The value of a column for one thing.
pub(super) fn at<T: Copy>(column: &[T], place: usize) -> Result<T, LinkError> {
    column.get(place).copied().ok_or(LinkError::Altered)
}

/// A column that holds a list for each of several things, one list after another.
pub(super) struct Lists<T> {
    values: std::vec::IntoIter<T>,
}

impl<T: TryFrom<i64>> Lists<T> {
    /// Takes the column for lists of these lengths, together not more than `most`.
    pub fn take(section: &mut Reader, lengths: &[i64], most: usize) -> Result<Self, LinkError> {
        let mut total = 0_usize;
        for length in lengths {
            let length = usize::try_from(*length).map_err(|_| LinkError::Altered)?;
            total = total.saturating_add(length);
        }
        if total > most {
            return Err(LinkError::Altered);
        }
        Ok(Self {
            values: section.column_of(total)?.into_iter(),
        })
    }

    /// The next list.
    pub fn next(&mut self, length: i64) -> impl Iterator<Item = T> {
        self.values
            .by_ref()
            .take(usize::try_from(length).unwrap_or(0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// When the standard catalogue changes, this test goes; the usual catalogue of version 1 stays.
    #[test]
    fn the_standard_catalogue_costs_nothing() {
        assert_eq!(usual_catalogue(), Catalogue::default());
    }
}
