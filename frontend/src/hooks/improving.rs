//! Has the ways of the plan on the table improved in a worker, and shows them once they are home.

use std::cell::RefCell;
use std::rc::Rc;

use borewright_core::design::Design;
use borewright_core::desk::Intent;
use borewright_core::plan::Plan;
use gloo::timers::callback::Timeout;
use gloo::worker::WorkerBridge;
use yew::prelude::*;

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
    // A note from the site is another plan of the same design: the search goes on.
    let design = Rc::as_ptr(&desk.session.design);
    use_effect_with((design, wanted), move |_| {
        let timer = wanted.then(|| Bench::begin(&bench, plan));
        move || {
            drop(timer);
            bench.stop();
        }
    });
}

/// The worker, and what came of its work.
struct Bench {
    dispatcher: Dispatcher,
    /// Started with the first order.
    bridge: RefCell<Option<WorkerBridge<Worker>>>,
    at_work: RefCell<Option<(u32, Rc<Plan>)>>,
    jobs: RefCell<u32>,
    patience: RefCell<Option<Timeout>>,
}

impl Bench {
    fn new(dispatcher: Dispatcher) -> Self {
        Self {
            dispatcher,
            bridge: RefCell::default(),
            at_work: RefCell::default(),
            jobs: RefCell::default(),
            patience: RefCell::default(),
        }
    }

    /// Orders a plan after a moment.
    fn begin(bench: &Rc<Self>, plan: Rc<Plan>) -> Timeout {
        bench.dispatcher.dispatch(Act::Improve(Improving::Begun(0)));
        let bench = Rc::clone(bench);
        Timeout::new(MOMENT, move || Self::order(&bench, plan))
    }

    fn order(bench: &Rc<Self>, plan: Rc<Plan>) {
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
        let design = answer.and_then(|answer| Design::taking(&plan, Some(&answer)));
        self.dispatcher.dispatch(match design {
            Some(design) => Act::Want(Intent::Improved(plan, Rc::new(design))),
            None => Act::Improve(Improving::Failed),
        });
    }
}
