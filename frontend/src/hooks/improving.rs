//! Has the ways of the plan on the table improved in a worker, and shows them once they are home. What
//! came home is kept on this device, and shown at once when its plan is opened again.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use borewright_core::design::Design;
use borewright_core::desk::Intent;
use borewright_core::plan::Plan;
use gloo::timers::callback::Timeout;
use gloo::worker::WorkerBridge;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

use super::ways;
use crate::state::{Act, Desk, Dispatcher, Improving};
use crate::worker::{self, News, Order, Told, Worker};

/// Between a change and the order to improve it, milliseconds.
const MOMENT: u32 = 250;

/// A worker that tells nothing for so long has failed, milliseconds.
const PATIENCE: u32 = 30_000;

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
    use_effect_with((design, wanted), move |_| {
        if wanted {
            Bench::begin(&bench, plan, job);
        }
        move || bench.stop()
    });
}

/// The worker, and what came of its work.
struct Bench {
    dispatcher: Dispatcher,
    /// Started with the first order.
    bridge: RefCell<Option<WorkerBridge<Worker>>>,
    /// The job on the table that was last begun with.
    table: Cell<Option<u32>>,
    /// The moment before the next order.
    moment: RefCell<Option<Timeout>>,
    /// Counts what is begun and stopped, so that what was kept comes in time or not at all.
    turn: Cell<u32>,
    at_work: RefCell<Option<(u32, Rc<Plan>)>>,
    jobs: RefCell<u32>,
    patience: RefCell<Option<Timeout>>,
}

impl Bench {
    fn new(dispatcher: Dispatcher) -> Self {
        Self {
            dispatcher,
            bridge: RefCell::default(),
            table: Cell::default(),
            moment: RefCell::default(),
            turn: Cell::default(),
            at_work: RefCell::default(),
            jobs: RefCell::default(),
            patience: RefCell::default(),
        }
    }

    /// Orders a plan that was just laid on the table, once that is drawn: nothing was kept for it. After an
    /// edit it waits a moment and looks for what this device keeps first: the edit may have led back to
    /// what was settled.
    fn begin(bench: &Rc<Self>, plan: Rc<Plan>, job: u32) {
        let next = Rc::clone(bench);
        let timeout = match bench.table.replace(Some(job)) == Some(job) {
            true => {
                bench.dispatcher.dispatch(Act::Improve(Improving::Begun(0)));
                Timeout::new(MOMENT, move || spawn_local(Self::look(next, plan)))
            }
            false => Timeout::new(0, move || Self::order(&next, plan)),
        };
        *bench.moment.borrow_mut() = Some(timeout);
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
        bench.dispatcher.dispatch(Act::Improve(Improving::Begun(0)));
        let job = *bench.jobs.borrow() + 1;
        *bench.jobs.borrow_mut() = job;
        let order = worker::order(job, &plan);
        *bench.at_work.borrow_mut() = Some((job, plan));
        let mut bridge = bench.bridge.borrow_mut();
        let news = Rc::downgrade(bench);
        let bridge = bridge.get_or_insert_with(|| {
            worker::start(move |told| {
                if let Some(bench) = news.upgrade() {
                    bench.heard(told);
                }
            })
        });
        bridge.send(order);
        bench.be_patient();
    }

    fn be_patient(&self) {
        let dispatcher = self.dispatcher.clone();
        let give_up = move || dispatcher.dispatch(Act::Improve(Improving::Failed));
        *self.patience.borrow_mut() = Some(Timeout::new(PATIENCE, give_up));
    }

    fn stop(&self) {
        self.turn.set(self.turn.get() + 1);
        self.moment.take();
        self.patience.take();
        if self.at_work.take().is_some()
            && let Some(bridge) = &*self.bridge.borrow()
        {
            bridge.send(Order::Stop);
        }
    }

    /// Takes news of the job at hand; news of an older one comes too late.
    fn heard(&self, news: News) {
        let plan = match &*self.at_work.borrow() {
            Some((job, plan)) if *job == news.job => Rc::clone(plan),
            _ => return,
        };
        let answer = match news.told {
            Told::Done(done) => {
                self.be_patient();
                return self
                    .dispatcher
                    .dispatch(Act::Improve(Improving::Begun(done)));
            }
            Told::Found(answer) => answer,
        };
        self.at_work.take();
        self.patience.take();
        let taken = answer.and_then(|answer| {
            let design = Design::taking(&plan, Some(&answer))?;
            Some((answer, design))
        });
        let Some((answer, design)) = taken else {
            return self.dispatcher.dispatch(Act::Improve(Improving::Failed));
        };
        let settled = Rc::clone(&plan);
        spawn_local(async move { ways::keep(&settled, &answer).await });
        self.show(plan, design);
    }
}
