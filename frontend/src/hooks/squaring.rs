//! Squares a photo up once that was asked for: the pixels are the browser's, how is the core's.

use std::cell::Cell;
use std::rc::Rc;
use std::sync::Arc;

use borewright_core::desk::{Draft, Intent, Notice};
use borewright_core::plan::edit::Edit;
use borewright_core::plan::{LevelId, Placing, Scan};
use borewright_core::scan::Squaring;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use crate::browser::picture;
use crate::state::{Act, Desk, Dispatcher, Wait};

/// What is asked for.
#[derive(Clone)]
struct Asked {
    level: LevelId,
    scan: Arc<Scan>,
    placing: Placing,
    squaring: Squaring,
}

impl PartialEq for Asked {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.scan, &other.scan)
            && (self.level, self.placing, self.squaring)
                == (other.level, other.placing, other.squaring)
    }
}

/// Answers a draft that asks for a squared picture. Letting go of the draft stops the work.
#[hook]
pub fn use_squaring(desk: &Desk, dispatcher: &Dispatcher) {
    let dispatcher = dispatcher.clone();
    use_effect_with(asked(desk), move |asked| {
        let wanted = Rc::new(Cell::new(true));
        if let Some(asked) = asked.clone() {
            spawn_local(square(asked, wanted.clone(), dispatcher));
        }
        move || wanted.set(false)
    });
}

fn asked(desk: &Desk) -> Option<Asked> {
    let Some(Draft::Corners {
        asked: Some(squaring),
        ..
    }) = &desk.session.draft
    else {
        return None;
    };
    let level = desk.session.shown_level()?;
    Some(Asked {
        level: level.id,
        scan: level.sheet.scan.clone()?,
        placing: level.sheet.placing,
        squaring: **squaring,
    })
}

async fn square(asked: Asked, wanted: Rc<Cell<bool>>, dispatcher: Dispatcher) {
    let go_on = |done| {
        if wanted.get() {
            dispatcher.dispatch(Act::Wait(Some(Wait {
                words: String::from("Squaring up the drawing"),
                done: Some(done),
            })));
        }
        wanted.get()
    };
    let done = picture::squared(&asked.scan, &asked.squaring, go_on).await;
    dispatcher.dispatch(Act::Wait(None));
    match done {
        Ok(Some(scan)) if wanted.get() => {
            let placing = asked.squaring.placing(&asked.placing);
            let known = asked.squaring.known().to_vec();
            let edit = Edit::PutScan(asked.level, Arc::new(scan), placing, known);
            dispatcher.dispatch(Act::Want(Intent::Edit(edit)));
            dispatcher.dispatch(Act::ShowAll);
        }
        Ok(_) => {}
        Err(sentence) => {
            dispatcher.dispatch(Act::Want(Intent::LetGo));
            dispatcher.dispatch(Act::Say(Notice::refused(sentence, None)));
        }
    }
}
