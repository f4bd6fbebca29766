//! The same program beside the page, in a web worker: it improves the ways of one plan at a time
//! and reports. It shows nothing and keeps nothing.
//!
//! A plan goes over as it would be saved, without its drawings; what comes back are ways through
//! the plan's own network, which the page checks against the plan before it shows them.

use std::cell::Cell;
use std::rc::Rc;

use borewright_core::design::Design;
use borewright_core::file;
use borewright_core::framing::Framing;
use borewright_core::plan::Plan;
use borewright_core::route::network::{Answer, Network};
use borewright_core::route::{Improvement, Routing};
use gloo::timers::future::TimeoutFuture;
use gloo::worker::{HandlerId, Registrable, Spawnable, WorkerBridge, WorkerScope};
use serde::{Deserialize, Serialize};
use wasm_bindgen_futures::spawn_local;

use crate::browser::program;

/// Between two reports, per cent.
const STRIDE: u8 = 4;

/// How long it works between two looks at its orders, milliseconds.
const STINT: f64 = 40.0;

/// What the page asks for. A job ends the one before it.
#[derive(Debug, Serialize, Deserialize)]
pub enum Order {
    /// Improve the ways of this plan.
    Improve {
        /// The number of the job.
        job: u32,
        /// The plan as it would be saved.
        plan: Vec<u8>,
    },
    /// Stop.
    Stop,
}

/// What the worker tells of a job.
#[derive(Debug, Serialize, Deserialize)]
pub struct News {
    /// The number of the job.
    pub job: u32,
    /// How it stands.
    pub told: Told,
}

/// How a job stands.
#[derive(Debug, Serialize, Deserialize)]
pub enum Told {
    /// So much is done, per cent.
    Done(u8),
    /// The answer; `None` if this plan has none.
    Found(Option<Answer>),
}

/// Starts the worker. `onnews` is called as long as the bridge is kept.
pub fn start(onnews: impl Fn(News) + 'static) -> WorkerBridge<Worker> {
    let mut spawner = Worker::spawner();
    spawner.callback(onnews);
    spawner.spawn_with_loader(&program::worker_address())
}

/// The order to improve a plan.
pub fn order(job: u32, plan: &Plan) -> Order {
    let mut bare = plan.clone();
    for level in &mut bare.levels {
        level.sheet.scan = None;
    }
    Order::Improve {
        job,
        plan: file::write(&bare),
    }
}

/// Takes orders, in a worker.
pub fn serve() {
    Worker::registrar().register();
}

/// The worker's side.
#[derive(Default)]
pub struct Worker {
    /// The job it is at; every other one stops at its next look.
    job: Rc<Cell<Option<u32>>>,
}

impl gloo::worker::Worker for Worker {
    type Message = ();
    type Input = Order;
    type Output = News;

    fn create(_: &WorkerScope<Self>) -> Self {
        Self::default()
    }

    fn update(&mut self, _: &WorkerScope<Self>, (): ()) {}

    fn received(&mut self, scope: &WorkerScope<Self>, order: Order, id: HandlerId) {
        let Order::Improve { job, plan } = order else {
            return self.job.set(None);
        };
        self.job.set(Some(job));
        let (scope, current) = (scope.clone(), Rc::clone(&self.job));
        spawn_local(async move {
            let tell = |told| scope.respond(id, News { job, told });
            let goes_on = || current.get() == Some(job);
            if let Some(answer) = improve(&plan, goes_on, |done| tell(Told::Done(done))).await {
                tell(Told::Found(answer));
            }
        });
    }
}

/// The answer for a plan as it was saved; `None` when stopped.
async fn improve(
    plan: &[u8],
    goes_on: impl Fn() -> bool,
    report: impl Fn(u8),
) -> Option<Option<Answer>> {
    match file::read(plan) {
        Ok(opened) => improve_plan(&opened.plan, goes_on, report).await,
        Err(_) => Some(None),
    }
}

/// What follows from a plan at its best, worked out here a moment at a time, so that the page stays
/// alive meanwhile; `report` is told how much is done, per cent.
pub async fn at_its_best(plan: &Plan, report: impl Fn(u8)) -> Design {
    let answer = improve_plan(plan, || true, report).await.flatten();
    let design = Design::taking(plan, answer.as_ref());
    design.unwrap_or_else(|| Design::long(plan))
}

/// The answer for a plan; `None` when stopped.
async fn improve_plan(
    plan: &Plan,
    goes_on: impl Fn() -> bool,
    report: impl Fn(u8),
) -> Option<Option<Answer>> {
    let framing = Framing::of(plan);
    let routing = Routing::of(plan, &framing);
    let Some(network) = routing
        .problem()
        .and_then(|problem| Network::new(problem).ok())
    else {
        return Some(None);
    };
    let mut improvement = Improvement::new(&network);
    let mut told = 0;
    while stint(&mut improvement) {
        if improvement.done() >= told + STRIDE {
            told = improvement.done();
            report(told);
        }
        TimeoutFuture::new(0).await;
        if !goes_on() {
            return None;
        }
    }
    Some(Some(improvement.answer()))
}

/// Works for a while; false once there is nothing more to do.
fn stint(improvement: &mut Improvement<'_>) -> bool {
    let since = js_sys::Date::now();
    while js_sys::Date::now() - since < STINT {
        if !improvement.step() {
            return false;
        }
    }
    true
}
