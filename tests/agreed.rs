//! What was agreed to before a note, a room and the job's name were changed behind it: a reply as an
//! earlier version of the program made it, and one as it is made now.

#![expect(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

use std::path::Path;

use borewright_core::agreement::{Fit, Standing, matters, standings, tally};
use borewright_core::design::Design;
use borewright_core::file::{self, link};
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{Answer, Item, Plan, Reply, Said};

fn bytes(name: &str) -> Vec<u8> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("files/hostile");
    std::fs::read(folder.join(name)).unwrap()
}

fn plan(name: &str) -> Plan {
    file::read(&bytes(name)).unwrap().plan
}

fn earlier() -> Reply {
    let text = String::from_utf8(bytes("agreed.reply")).unwrap();
    link::read_reply(&link::decode_text(&text).unwrap()).unwrap()
}

/// Pat agrees to everything that is shown.
fn agreed(plan: &Plan) -> Reply {
    let matters = matters(plan, &Design::long(plan));
    let answers = matters.iter().map(|matter| Answer {
        item: matter.item,
        digest: matter.digest,
        said: Said::Agreed,
    });
    Reply {
        name: String::from("Pat"),
        date: String::new(),
        revision: plan.revision,
        job: plan.title.clone(),
        version: link::version(plan),
        answers: answers.collect(),
    }
}

fn fit(plan: &Plan, reply: &Reply) -> Fit {
    Fit::of(plan, &standings(plan, &Design::long(plan)), reply)
}

/// How everything stands once a reply is taken in.
fn after(plan: &Plan, reply: Reply) -> Vec<(Item, Standing)> {
    let plan = plan.apply(&Edit::TakeReply(reply)).unwrap();
    let all = standings(&plan, &Design::long(&plan));
    all.into_iter()
        .map(|(matter, s)| (matter.item, s))
        .collect()
}

#[test]
fn an_answer_of_an_earlier_version_opens_and_counts_as_what_it_was() {
    for name in ["agreed-before.json", "agreed-after.json"] {
        let plan = plan(name);
        let reply = earlier();
        assert_eq!(fit(&plan, &reply), Fit::Earlier);
        let all = after(&plan, reply.clone());
        for answer in &reply.answers {
            let (_, standing) = all.iter().find(|(item, _)| *item == answer.item).unwrap();
            assert!(matches!(standing, Standing::Earlier(_)), "{standing:?}");
            assert!(standing.words().contains("figures only"));
        }
        assert!(all.iter().all(|(_, s)| !matches!(s, Standing::Agreed(_))));
    }
}

#[test]
fn a_changed_note_room_and_name_are_not_agreed() {
    let (before, later) = (plan("agreed-before.json"), plan("agreed-after.json"));
    let reply = agreed(&before);
    assert_eq!(fit(&before, &reply), Fit::Now);
    // Under another name it is another job, whose house is like this one.
    assert_eq!(fit(&later, &reply), Fit::Other);
    let renamed = Plan {
        title: before.title.clone(),
        ..later.clone()
    };
    assert!(matches!(fit(&renamed, &reply), Fit::Partly(_)));
    let all = after(&renamed, reply.clone());
    let changed: Vec<Item> = all
        .iter()
        .filter(|(_, standing)| matches!(standing, Standing::Changed(_)))
        .map(|(item, _)| *item)
        .collect();
    let differs = |item: &Item| {
        let of = |plan: &Plan| {
            let matters = matters(plan, &Design::long(plan));
            let found = matters.into_iter().find(|matter| matter.item == *item);
            found.map(|matter| (matter.what, matter.says))
        };
        of(&before) != of(&renamed)
    };
    let items: Vec<Item> = all.iter().map(|(item, _)| *item).collect();
    let shown: Vec<Item> = items.into_iter().filter(differs).collect();
    assert_eq!(
        changed, shown,
        "what is shown otherwise is changed, and nothing else"
    );
    assert!(changed.len() >= 2, "{changed:?}");
    let design = Design::long(&renamed);
    let taken = renamed.apply(&Edit::TakeReply(reply)).unwrap();
    assert_eq!(tally(&standings(&taken, &design)).changed, changed.len());
}
