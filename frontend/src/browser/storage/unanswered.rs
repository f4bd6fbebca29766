//! What was ordered of a job and not answered when its page was left.
//!
//! Chromium asks for the room on the device before it commits, and gives a transaction up whose page goes
//! meanwhile, even one whose commit was ordered. So it is noted as well where a page writes at once, and the
//! next page carries it out where it is not there.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use futures_util::future::join_all;
use js_sys::Uint8Array;
use rexie::{Rexie, Store, TransactionMode};
use serde::{Deserialize, Serialize};
use wasm_bindgen::{JsCast, JsValue};

use super::{Order, PART, Table, VERSION, carry_out, has, sentence, store_of};
use crate::browser::notes::Notes;
use crate::browser::scope;

/// What the name of a note begins with; the rest is that of its job.
const NOTE: &str = "borewright unanswered";

/// More bytes than these are not noted: browsers give a host five million letters.
const MOST: usize = 2_000_000;

/// Orders that belong together.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Unanswered {
    /// In their order.
    pub orders: Vec<Order>,
    /// Where the record is that they say nothing without.
    pub rests_on: Option<(Table, String)>,
}

impl Unanswered {
    /// Notes it for the next page. Where the browser has no room for that, the transaction is all there is.
    pub fn note(&self, job: &str) {
        let bytes: usize = self.orders.iter().map(Order::bytes).sum();
        if bytes > MOST {
            return;
        }
        if let Ok(bytes) = postcard::to_allocvec(self) {
            Notes::Device.write(&name(job), &STANDARD.encode(bytes));
        }
    }

    fn read(name: &str) -> Option<Self> {
        let text: String = Notes::Device.read(name)?;
        postcard::from_bytes(&STANDARD.decode(text).ok()?).ok()
    }

    /// What adds to the job: each of these names is given to one thing only.
    fn added(&self) -> impl Iterator<Item = (Table, &str, &[u8])> {
        self.orders.iter().filter_map(|order| match order {
            Order::Put(table @ (Table::Journal | Table::Points), name, bytes) => {
                Some((*table, name.as_str(), bytes.as_slice()))
            }
            _ => None,
        })
    }

    /// Whether it is to be carried out: its end is missing, and what is there of it or before it is what it
    /// goes on from, not what another page did since.
    async fn is_missing(&self, stores: &[Store]) -> Result<bool, String> {
        let mut there = Vec::new();
        for (table, name, bytes) in self.added() {
            let held = store_of(table, stores)?.get(JsValue::from_str(name)).await;
            let held = held.map_err(sentence)?;
            let held = held.and_then(|held| held.dyn_ref::<Uint8Array>().map(Uint8Array::to_vec));
            let first = bytes.chunks(PART).next().unwrap_or_default();
            if held.as_deref().is_some_and(|held| held != first) {
                return Ok(false);
            }
            there.push(held.is_some());
        }
        let rests = match &self.rests_on {
            Some((table, name)) => has(*table, name, stores).await?,
            None => true,
        };
        let goes_on = rests || there.first() == Some(&true);
        Ok(goes_on && there.last() == Some(&false))
    }
}

/// Nothing of this job is unanswered any more.
pub fn forget(job: &str) {
    Notes::Device.delete(&name(job));
}

/// Carries out what pages before this one left.
pub(super) async fn bring_in(base: &Rexie) {
    for name in Notes::Device.names(&name("")) {
        let done = match Unanswered::read(&name) {
            Some(left) => bring(base, &left).await,
            None => Ok(()),
        };
        // What could not be written now is tried again by the next page.
        if done.is_ok() {
            Notes::Device.delete(&name);
        }
    }
}

async fn bring(base: &Rexie, left: &Unanswered) -> Result<(), String> {
    let held = base
        .transaction(&Table::ALL.map(Table::name), TransactionMode::ReadWrite)
        .map_err(sentence)?;
    let store = |table: Table| held.store(table.name()).map_err(sentence);
    let stores: Result<Vec<Store>, String> = Table::ALL.into_iter().map(store).collect();
    let stores = stores?;
    if left.is_missing(&stores).await? {
        let orders = left.orders.iter().map(|order| carry_out(order, &stores));
        let carried = join_all(orders).await;
        carried.into_iter().collect::<Result<(), String>>()?;
    }
    held.done().await.map_err(sentence).map(drop)
}

fn name(job: &str) -> String {
    format!("{} {VERSION} {job}", scope::own(NOTE))
}

#[cfg(all(test, target_family = "wasm"))]
mod tests {
    #![allow(
        clippy::unwrap_used,
        reason = "a browser test may stop at the first surprise"
    )]

    use super::super::tests::put;
    use super::super::{base, read, write};
    use super::*;
    use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

    wasm_bindgen_test_configure!(run_in_browser);

    fn on(orders: &[Order], record: &str) -> Unanswered {
        Unanswered {
            orders: orders.to_vec(),
            rests_on: Some((Table::Journal, record.to_string())),
        }
    }

    async fn record(name: &str) -> Option<Vec<u8>> {
        read(Table::Journal, name).await.unwrap()
    }

    #[wasm_bindgen_test]
    async fn the_next_page_carries_out_what_is_not_there() {
        write(&[put("left/1", &[1])]).await.unwrap();
        let more = vec![3; 2 * PART];
        on(&[put("left/2", &[2]), put("left/3", &more)], "left/1").note("left");
        bring_in(&base().await.unwrap()).await;
        assert_eq!(record("left/2").await, Some(vec![2]));
        assert_eq!(record("left/3").await, Some(more));
        assert!(Unanswered::read(&name("left")).is_none());
    }

    #[wasm_bindgen_test]
    async fn what_another_page_did_since_stays() {
        write(&[put("since/1", &[1]), put("since/2", &[9])])
            .await
            .unwrap();
        on(&[put("since/2", &[2]), put("since/3", &[3])], "since/1").note("since");
        bring_in(&base().await.unwrap()).await;
        assert_eq!(record("since/2").await, Some(vec![9]));
        assert_eq!(record("since/3").await, None);
    }

    #[wasm_bindgen_test]
    async fn what_rests_on_nothing_is_not_carried_out() {
        on(&[put("torn/2", &[2])], "torn/1").note("torn");
        bring_in(&base().await.unwrap()).await;
        assert_eq!(record("torn/2").await, None);
    }

    #[wasm_bindgen_test]
    async fn what_was_answered_is_forgotten() {
        on(&[put("done/2", &[2])], "done/1").note("done");
        forget("done");
        assert!(Unanswered::read(&name("done")).is_none());
    }
}
