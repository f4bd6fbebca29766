//! Has the ways of the plan on the table improved in a worker, and shows them once they are home. What
//! came home is kept on this device, and shown at once when its plan is opened again. Of a plan that is too
//! much for the page everything is worked out there, within 10 s and 500 MB or not at all.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use borewright_core::design::{Design, Effort, Load};
use borewright_core::desk::{Intent, Notice};
use borewright_core::plan::Plan;
use gloo::timers::callback::Timeout;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use super::ways;
use crate::state::{Act, Desk, Dispatcher, Improving};
use crate::worker::{self, End, Helper, LONGEST, Message, News, Order, PATIENCE, Told};

/// Between a change and the order to improve it, milliseconds.
const MOMENT: u32 = 250;

/// What is said when the worker came to an end in the middle of its search.
fn unimproved(end: End) -> &'static str {
    match end {
        End::Fault => {
            "The search for better ways has ended by a fault, so they were not improved. The plan is whole, and the ways shown hold."
        }
        End::Memory => {
            "The search for better ways takes over 500 MB of memory and was stopped, so they were not improved. The plan is whole, and the ways shown hold."
        }
        End::Time => {
            "The search for better ways told nothing for 30 s and was stopped, so they were not improved. The plan is whole, and the ways shown hold."
        }
    }
}

/// Improves the plan whenever it has changed.
#[hook]
pub fn use_improving(desk: &Desk, dispatcher: &Dispatcher) {
    let bench = {
        let dispatcher = dispatcher.clone();
        use_memo((), |()| Bench::new(dispatcher))
    };
    let (plan, wanted) = (Rc::clone(&desk.session.plan), desk.wants_better());
    let job = desk.job;
    // A note from the site is another plan of the same design: the search goes on.
    let design = Rc::as_ptr(&desk.session.design);
    use_effect_with((design, wanted), move |_| match wanted {
        true => Bench::begin(&bench, plan, job),
        false => bench.stop(),
    });
}

/// What the worker is at.
struct Work {
    job: u32,
    plan: Rc<Plan>,
    /// All that follows from the plan, and not better ways alone.
    whole: bool,
    /// The page has ways of it to show.
    shown: bool,
}

/// The worker, and what came of its work.
struct Bench {
    dispatcher: Dispatcher,
    /// Started with the first order, and again after its end.
    helper: RefCell<Option<Helper>>,
    /// The job on the table that was last begun with.
    table: Cell<Option<u32>>,
    /// The moment before the next order.
    moment: RefCell<Option<Timeout>>,
    /// Counts what is begun and stopped, so that what was kept comes in time or not at all.
    turn: Cell<u32>,
    at_work: RefCell<Option<Work>>,
    jobs: Cell<u32>,
    patience: RefCell<Option<Timeout>>,
}

impl Bench {
    fn new(dispatcher: Dispatcher) -> Self {
        Self {
            dispatcher,
            helper: RefCell::default(),
            table: Cell::default(),
            moment: RefCell::default(),
            turn: Cell::default(),
            at_work: RefCell::default(),
            jobs: Cell::default(),
            patience: RefCell::default(),
        }
    }

    /// Orders a plan that was just laid on the table, once that is drawn: nothing was kept for it. After an
    /// edit it waits a moment and looks for what this device keeps first: the edit may have led back to
    /// what was settled. What is at work for the same plan goes on.
    fn begin(bench: &Rc<Self>, plan: Rc<Plan>, job: u32) {
        if bench.is_at(&plan) {
            return;
        }
        bench.stop();
        let next = Rc::clone(bench);
        let is_after_an_edit = bench.table.replace(Some(job)) == Some(job);
        bench.dispatcher.dispatch(Act::Improve(Improving::Begun(0)));
        let timeout = match is_after_an_edit && Load::of(&plan).is_light() {
            true => Timeout::new(MOMENT, move || spawn_local(Self::look(next, plan))),
            false => Timeout::new(0, move || Self::order(&next, plan)),
        };
        *bench.moment.borrow_mut() = Some(timeout);
    }

    fn is_at(&self, plan: &Rc<Plan>) -> bool {
        let work = self.at_work.borrow();
        work.as_ref()
            .is_some_and(|work| Rc::ptr_eq(&work.plan, plan) || work.plan.is_built_as(plan))
    }

    async fn look(bench: Rc<Self>, plan: Rc<Plan>) {
        let turn = bench.turn.get();
        let kept = ways::known(&plan).await;
        if bench.turn.get() != turn {
            return;
        }
        match kept {
            Some(design) => bench.show(plan, design),
            None => Self::order(&bench, plan),
        }
    }

    fn show(&self, plan: Rc<Plan>, design: Design) {
        let home = Intent::Improved(plan, Rc::new(design));
        self.dispatcher.dispatch(Act::Want(home));
    }

    fn order(bench: &Rc<Self>, plan: Rc<Plan>) {
        let job = bench.jobs.get() + 1;
        bench.jobs.set(job);
        let whole = !Load::of(&plan).is_light();
        let order = worker::order(job, &plan, whole);
        *bench.at_work.borrow_mut() = Some(Work {
            job,
            plan,
            whole,
            shown: !whole,
        });
        let news = Rc::downgrade(bench);
        let mut helper = bench.helper.borrow_mut();
        if helper.is_none() {
            *helper = Helper::start(move |message| {
                if let Some(bench) = news.upgrade() {
                    bench.heard(message);
                }
            });
        }
        match &*helper {
            Some(helper) => helper.order(&order),
            None => {
                drop(helper);
                return bench.end(End::Fault);
            }
        }
        bench.wait(if whole { LONGEST } else { PATIENCE }, bench);
    }

    /// Gives up after so long, unless something is heard before.
    fn wait(&self, longest: u32, bench: &Rc<Self>) {
        let bench = Rc::downgrade(bench);
        let give_up = move || {
            if let Some(bench) = bench.upgrade() {
                bench.end(End::Time);
            }
        };
        *self.patience.borrow_mut() = Some(Timeout::new(longest, give_up));
    }

    /// The work came to nothing. The worker goes with it, in the middle of whatever it does.
    fn end(&self, end: End) {
        self.helper.take();
        self.patience.take();
        let Some(work) = self.at_work.take() else {
            return;
        };
        self.dispatcher
            .dispatch(Act::Improve(Improving::Failed(end)));
        if work.shown {
            let notice = Notice::refused(unimproved(end), None);
            self.dispatcher.dispatch(Act::Say(notice));
        }
    }

    fn stop(&self) {
        self.turn.set(self.turn.get() + 1);
        self.moment.take();
        self.patience.take();
        let Some(work) = self.at_work.take() else {
            return;
        };
        match work.whole {
            // It hears nothing before all is worked out.
            true => drop(self.helper.take()),
            false => {
                if let Some(helper) = &*self.helper.borrow() {
                    helper.order(&Order::Stop);
                }
            }
        }
    }

    fn heard(self: Rc<Self>, message: Message) {
        match message {
            Message::News(news) => self.told(news),
            Message::Ended(end) => self.end(end),
        }
    }

    /// Takes news of the job at hand; news of an older one comes too late.
    fn told(self: &Rc<Self>, news: News) {
        let plan = match &*self.at_work.borrow() {
            Some(work) if work.job == news.job => Rc::clone(&work.plan),
            _ => return,
        };
        self.wait(PATIENCE, self);
        match news.told {
            Told::Done(done) => self
                .dispatcher
                .dispatch(Act::Improve(Improving::Begun(done))),
            Told::Whole(design) => {
                if design.effort == Effort::Long {
                    self.done();
                    // A worker keeps all the memory it ever had. This one had much; the next order starts another.
                    self.helper.take();
                }
                if let Some(work) = &mut *self.at_work.borrow_mut() {
                    work.shown = true;
                }
                self.show(plan, *design);
            }
            Told::Found(found) => {
                self.done();
                let Some((answer, design)) = found.map(|found| *found) else {
                    let failed = Improving::Failed(End::Fault);
                    return self.dispatcher.dispatch(Act::Improve(failed));
                };
                let settled = Rc::clone(&plan);
                spawn_local(async move { ways::keep(&settled, &answer).await });
                self.show(plan, design);
            }
            _ => {}
        }
    }

    fn done(&self) {
        self.at_work.take();
        self.patience.take();
    }
}
