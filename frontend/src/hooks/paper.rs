//! How the holes on the page stand to those on paper.

use std::rc::Rc;

use yew::prelude::*;

use super::use_desk;

/// One sentence where the page shows other holes than the sheets printed or shared last.
#[hook]
pub fn use_paper() -> Option<String> {
    let desk = use_desk();
    let (plan, design) = (&desk.session.plan, &desk.session.design);
    let awaited = desk.wants_better();
    let sentence = use_memo((Rc::as_ptr(plan), Rc::as_ptr(design), awaited), |_| {
        design.since_printed(plan).sentence(awaited)
    });
    (*sentence).clone()
}
