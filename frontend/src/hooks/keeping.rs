//! Keeps what lies on the table on this device: every change in the moment it is made, one after the
//! other, and while one is written the next ones gather to be written together.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use borewright_core::desk::{Session, Step};
use borewright_core::file::job::{Entry, Journal};
use borewright_core::plan::Plan;
use gloo::events::EventListener;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use super::jobs::lock_name;
use super::typed::use_typed;
use crate::browser::channel::{self, News};
use crate::browser::locks::{self, Lock};
use crate::browser::storage::{self, Order, Table, Unanswered};
use crate::browser::{clock, jobs};
use crate::state::{Act, Desk, Dispatcher, Keeping, Place, on_change};

/// Keeps the table whenever it differs from what is kept, before the change is drawn. A plan that is only
/// looked at is not kept before it is taken over, and one that nobody changed is not kept either.
#[hook]
pub fn use_keeping(table: &UseReducerHandle<Desk>) {
    // What was typed is confirmed before it is seen what is not written: listeners are told in the order in
    // which they began to listen.
    use_typed();
    let (table, dispatcher) = (table.clone(), table.dispatcher());
    use_effect_with((), move |()| {
        let (window, document) = (gloo::utils::window(), gloo::utils::document());
        let keeper = Rc::new(Keeper::new(dispatcher));
        // The table itself, not what is drawn of it; a handle holds on to every state that it was asked for.
        let desk = move || Rc::new((*table.clone()).clone());
        let (look, leave) = {
            let (looking, leaving, desk) = (Rc::clone(&keeper), keeper, Rc::new(desk));
            let now = Rc::clone(&desk);
            let look = move || Keeper::look(&looking, now());
            (look, Rc::new(move || leaving.leave(desk())))
        };
        on_change(look);
        let hide = Rc::clone(&leave);
        let left = EventListener::new(&window, "pagehide", move |_| leave());
        let hidden = EventListener::new(&document, "visibilitychange", move |_| {
            if gloo::utils::document().hidden() {
                hide();
            }
        });
        move || drop((left, hidden))
    });
}

/// Writes, one thing after the other.
struct Keeper {
    dispatcher: Dispatcher,
    held: RefCell<Option<Held>>,
    /// The table as it was looked at last.
    table: RefCell<Option<Rc<Desk>>>,
    queue: RefCell<Vec<Order>>,
    /// What all in the queue rests on.
    rests_on: RefCell<Option<(Table, String)>>,
    at_work: Cell<bool>,
    /// What is being written, and not answered.
    at_hand: RefCell<Option<Rc<Unanswered>>>,
    /// Something of it is noted for the next page.
    noted: Cell<bool>,
    /// The name of the job on the table, and those of jobs that left it: they are let go of once
    /// everything is written.
    lock: RefCell<Option<Rc<Lock>>>,
    left: RefCell<Vec<Rc<Lock>>>,
    /// The browser was asked not to clear what is kept.
    lasts: Cell<bool>,
}

/// The job that is being kept.
struct Held {
    /// Which table it is.
    table: u32,
    id: Rc<str>,
    journal: Journal,
    /// The number of the last named point that was written.
    point: u32,
}

impl Keeper {
    fn new(dispatcher: Dispatcher) -> Self {
        Self {
            dispatcher,
            held: RefCell::default(),
            table: RefCell::default(),
            queue: RefCell::default(),
            rests_on: RefCell::default(),
            at_work: Cell::default(),
            at_hand: RefCell::default(),
            noted: Cell::default(),
            lock: RefCell::default(),
            left: RefCell::default(),
            lasts: Cell::default(),
        }
    }

    /// Looks at the table, and has written what is new on it.
    fn look(keeper: &Rc<Self>, desk: Rc<Desk>) {
        let before = keeper.table.replace(Some(Rc::clone(&desk)));
        if before.is_some_and(|before| is_same(&before, &desk)) {
            return;
        }
        let same = |held: &Held| held.table == desk.job;
        let known = keeper.held.borrow().as_ref().is_some_and(same);
        if !known {
            keeper.held.take();
        }
        keeper.change_lock(desk.place.lock());
        if !desk.is_to_be_kept() {
            return;
        }
        if !known {
            keeper.held.replace(Some(keeper.hold(&desk)));
        }
        if keeper.order(&desk) {
            keeper.dispatcher.dispatch(Act::Keep(Keeping::Waiting));
            Self::work(keeper);
        }
    }

    /// A name that is no longer wanted is let go of, but never before what was done under it is written.
    fn change_lock(&self, now: Option<&Rc<Lock>>) {
        let before = self.lock.replace(now.cloned());
        let left = before.filter(|before| now.is_none_or(|now| !Rc::ptr_eq(before, now)));
        self.left.borrow_mut().extend(left);
        if !self.at_work.get() {
            self.let_go();
        }
    }

    fn let_go(&self) {
        self.left.take().iter().for_each(|lock| lock.let_go());
    }

    /// What is kept from now on: the job that lies there, or a new one.
    fn hold(&self, desk: &Desk) -> Held {
        let (table, journal) = (desk.job, (*desk.journal).clone());
        let id = match desk.place.id() {
            Some(id) => Rc::clone(id),
            None => self.place(table, jobs::new_id().into()),
        };
        jobs::note_last(&id);
        let point = desk.point.0;
        Held {
            table,
            id,
            journal,
            point,
        }
    }

    /// Tells the table that it is a job from now on, once its name is held.
    fn place(&self, table: u32, id: Rc<str>) -> Rc<str> {
        let (dispatcher, named) = (self.dispatcher.clone(), Rc::clone(&id));
        spawn_local(async move {
            if let Some(lock) = locks::hold(&lock_name(&named)).await {
                dispatcher.dispatch(Act::Placed(table, Place::Job(named, lock)));
            }
        });
        id
    }

    /// Puts what is new into the queue; false when nothing is.
    fn order(&self, desk: &Desk) -> bool {
        let mut held = self.held.borrow_mut();
        let Some(held) = held.as_mut() else {
            return false;
        };
        let session = &desk.session;
        let written = held.journal.follow(&session.history, &session.plan);
        let (mut queue, moment) = (self.queue.borrow_mut(), clock::moment());
        if !written.records.is_empty() {
            let entry = Entry::of(&held.id, &session.plan, next(session), moment);
            if queue.is_empty() {
                self.rests_on.replace(jobs::rests_on(&held.id, &written));
            }
            queue.extend(jobs::orders(&entry, written));
        }
        let (number, name) = &desk.point;
        if held.point != *number {
            held.point = *number;
            let point = held.journal.point(name.clone(), moment);
            queue.push(jobs::point(&held.id, &point));
        }
        !queue.is_empty()
    }

    fn work(keeper: &Rc<Self>) {
        if keeper.at_work.replace(true) {
            return;
        }
        let keeper = Rc::clone(keeper);
        spawn_local(async move {
            while let Some((orders, plan)) = keeper.next() {
                let written = storage::write_on(&orders.orders, orders.rests_on.clone()).await;
                keeper.at_hand.take();
                let done = match written {
                    Ok(true) => {
                        keeper.forget();
                        keeper.tell();
                        Act::Kept(plan)
                    }
                    // Somebody cleared the storage under this page: all of the job is written anew.
                    Ok(false) => {
                        keeper.fall_behind(true);
                        Act::Keep(Keeping::Waiting)
                    }
                    Err(sentence) => {
                        keeper.fall_behind(false);
                        Act::Keep(Keeping::Failed(sentence))
                    }
                };
                keeper.dispatcher.dispatch(done);
            }
            keeper.at_work.set(false);
            keeper.let_go();
        });
    }

    /// After a writing: other windows are told, and the browser is asked once not to clear it.
    fn tell(&self) {
        if let Some(held) = &*self.held.borrow() {
            channel::tell(&News::Written(held.id.to_string()));
        }
        if !self.lasts.replace(true) {
            storage::ask_to_last();
        }
    }

    /// Everything that waits, and the plan that is kept once it is written.
    fn next(&self) -> Option<(Rc<Unanswered>, Rc<Plan>)> {
        let orders = self.queue.take();
        let rests_on = self.rests_on.take();
        let table = self.table.borrow();
        let plan = table.as_ref().map(|desk| Rc::clone(&desk.session.plan))?;
        if orders.is_empty() {
            return None;
        }
        let orders = Rc::new(Unanswered { orders, rests_on });
        self.at_hand.replace(Some(Rc::clone(&orders)));
        Some((orders, plan))
    }

    /// The page is left or put away: what is not written yet is ordered, and noted for the next one.
    fn leave(self: &Rc<Self>, desk: Rc<Desk>) {
        Self::look(self, desk);
        let (held, queue) = (self.held.borrow(), self.queue.borrow());
        let at_hand = self.at_hand.borrow().clone();
        let (Some(held), true) = (&*held, at_hand.is_some() || !queue.is_empty()) else {
            return;
        };
        let (mut orders, rests_on) = match at_hand {
            Some(at_hand) => (at_hand.orders.clone(), at_hand.rests_on.clone()),
            None => (Vec::new(), self.rests_on.borrow().clone()),
        };
        orders.extend(queue.iter().cloned());
        Unanswered { orders, rests_on }.note(&held.id);
        self.noted.set(true);
    }

    fn forget(&self) {
        if self.noted.get() && self.queue.borrow().is_empty() {
            self.noted.set(false);
            if let Some(held) = &*self.held.borrow() {
                storage::forget(&held.id);
            }
        }
    }

    /// After a writing that failed: what gathered meanwhile hangs on what is not there, so the whole job
    /// is written instead, at once if that is asked for or there was any, or with the next change.
    fn fall_behind(&self, at_once: bool) {
        let waited = !self.queue.take().is_empty() || at_once;
        if let Some(held) = self.held.borrow_mut().as_mut() {
            held.journal = std::mem::take(&mut held.journal).behind();
        }
        let table = self.table.borrow().clone();
        if let Some(desk) = table.filter(|desk| waited && desk.is_to_be_kept()) {
            self.order(&desk);
        }
    }
}

/// Whether nothing differs that is kept, or that decides what is.
fn is_same(one: &Desk, other: &Desk) -> bool {
    let stands = |desk: &Desk| {
        let holds = desk.place.lock().map(Rc::as_ptr);
        (desk.job, holds, desk.is_to_be_kept(), desk.point.0)
    };
    Rc::ptr_eq(&one.session.plan, &other.session.plan)
        && Rc::ptr_eq(&one.session.history, &other.session.history)
        && stands(one) == stands(other)
}

/// What is next in a job: "Framing: 2 loose ends".
fn next(session: &Session) -> String {
    let step = Step::of(&session.plan);
    format!("{}: {}", step.name(), session.lacks(step).words)
}
