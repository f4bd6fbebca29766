//! What the reader has said so far, kept on the device until it is sent.

use std::collections::BTreeMap;
use std::rc::Rc;

use borewright_core::file::link;
use borewright_core::plan::{Answer, Digest, Item, Plan, Reply, Said};
use yew::prelude::*;

use crate::browser::draft::{self, Draft};

/// What is said of several items at once; nothing takes an answer back.
pub type Say = Vec<(Item, Option<Said>)>;

/// What was said of each item.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Answers(BTreeMap<Item, Said>);

impl Answers {
    /// What was said of an item.
    pub fn of(&self, item: Item) -> Option<&Said> {
        self.0.get(&item)
    }
}

impl Reducible for Answers {
    type Action = Say;

    fn reduce(self: Rc<Self>, say: Say) -> Rc<Self> {
        let mut next = (*self).clone();
        for (item, said) in say {
            match said {
                Some(said) => drop(next.0.insert(item, said)),
                None => drop(next.0.remove(&item)),
            }
        }
        Rc::new(next)
    }
}

/// What was said so far, and how to say more.
#[hook]
pub fn use_answers(plan: &Rc<Plan>) -> (Rc<Answers>, Callback<Say>) {
    let version = *use_memo(Rc::as_ptr(plan), |_| link::version(plan));
    let answers = use_reducer_eq(|| kept(version).unwrap_or_default());
    let now = Rc::new((*answers).clone());
    use_effect_with(now.clone(), move |answers| keep(version, answers));
    let say = {
        let dispatcher = answers.dispatcher();
        Callback::from(move |say| dispatcher.dispatch(say))
    };
    (now, say)
}

/// Answers are kept in the form of a reply, not signed yet and to nothing in particular.
fn keep(version: Digest, answers: &Answers) {
    let answer = |(item, said): (&Item, &Said)| Answer {
        item: *item,
        digest: version,
        said: said.clone(),
    };
    let reply = Reply {
        name: String::from("not signed"),
        date: String::new(),
        revision: 0,
        job: String::new(),
        version,
        answers: answers.0.iter().map(answer).collect(),
    };
    let text = link::write_reply(&reply).map(|bytes| link::encode_text(&bytes));
    let code = version.code().unwrap_or_default();
    draft::write(Draft::Answers, &code, &text.unwrap_or_default());
}

fn kept(version: Digest) -> Option<Answers> {
    let text = draft::read(Draft::Answers, &version.code()?)?;
    let bytes = link::decode_text(&text).ok()?;
    let reply = link::read_reply(&bytes).ok()?;
    let said = |answer: Answer| (answer.item, answer.said);
    Some(Answers(reply.answers.into_iter().map(said).collect()))
}
