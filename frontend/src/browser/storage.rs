//! The browser's own data base: bytes under names, in a few tables.
//!
//! Bytes are stored as such: some browsers refuse files there. What is written together is written all
//! or not at all, and ordered in one go with its commit, so that it goes on when the page is left in
//! the same moment. It is durable once the browser has handed it to the system; it does not wait until a
//! disk has turned, which would cost more than the moment of an edit.

mod brought;

use std::cell::{Cell, RefCell};
use std::future::Future;
use std::rc::Rc;

use futures_util::future::{Either, join, join_all, select};
use gloo::timers::future::TimeoutFuture;
use js_sys::{Function, Reflect, Uint8Array};
use rexie::{Error, KeyRange, ObjectStore, Rexie, Store, Transaction, TransactionMode};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::spawn_local;

use super::scope;

/// The data base at the root of a host; below it each path has one of its own.
const DATA_BASE: &str = "borewright";
const VERSION: u32 = 3;

/// A storage that does not answer within so many milliseconds is silent.
const PATIENCE: u32 = 3_000;

/// One that was silent is asked again with each change, but not waited for as long.
const AFTER_SILENCE: u32 = 300;

/// So many bytes are given a millisecond more.
const BYTES_A_MILLISECOND: usize = 1_000;

/// What lies in the data base.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Table {
    /// Plans of before there were jobs, and bytes that could not be read.
    Plans,
    /// The line of each job on the list.
    Jobs,
    /// Records of journals.
    Journal,
    /// Drawings.
    Drawings,
    /// Named points.
    Points,
    /// Settled ways.
    Ways,
}

impl Table {
    const ALL: [Self; 6] = [
        Self::Plans,
        Self::Jobs,
        Self::Journal,
        Self::Drawings,
        Self::Points,
        Self::Ways,
    ];

    fn name(self) -> &'static str {
        match self {
            Self::Plans => "plans",
            Self::Jobs => "jobs",
            Self::Journal => "journal",
            Self::Drawings => "drawings",
            Self::Points => "points",
            Self::Ways => "ways",
        }
    }
}

/// One thing to be written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Order {
    /// These bytes under this name.
    Put(Table, String, Vec<u8>),
    /// Nothing under this name any more.
    Delete(Table, String),
    /// Nothing any more under the names from the first on and before the second.
    DeleteBetween(Table, String, String),
}

/// What is said when this device keeps nothing.
pub const FORBIDDEN: &str = "This browser keeps nothing for this page. The plan stays here while the page is open; save it to a file before you close it.";

/// What is said when there is no room.
pub const FULL: &str = "There is no room left on this device. The plan stays here while the page is open; save it to a file before you close it.";

/// What is said when the storage never answers.
pub const SILENT: &str = "The storage of this browser does not answer. The plan stays here while the page is open; save it to a file before you close it.";

thread_local! {
    static BASE: RefCell<Option<Rc<Rexie>>> = const { RefCell::new(None) };
    static IS_SILENT: Cell<bool> = const { Cell::new(false) };
}

/// Asks the browser not to clear what is kept when the device runs short of room. What it answers changes
/// nothing here: a browser that refuses keeps as long as it can.
pub fn ask_to_last() {
    let navigator = gloo::utils::window().navigator();
    let asked = || -> Option<JsValue> {
        let storage = Reflect::get(&navigator, &"storage".into()).ok()?;
        let persist = Reflect::get(&storage, &"persist".into()).ok()?;
        persist.dyn_ref::<Function>()?.call0(&storage).ok()
    };
    let _ = asked();
}

/// The bytes under a name, if there are any.
///
/// # Errors
/// One sentence when the storage cannot be read.
pub async fn read(table: Table, name: &str) -> Result<Option<Vec<u8>>, String> {
    let name = JsValue::from_str(name);
    patient(PATIENCE, async move {
        let held = begin(TransactionMode::ReadOnly).await?;
        let store = held.store(table.name()).map_err(sentence)?;
        let found = store.get(name).await;
        Ok(found.map_err(sentence)?.and_then(bytes_of))
    })
    .await
}

/// Everything of a table under names from the first on and before the second, or all of it, in the order
/// of the names.
///
/// # Errors
/// One sentence when the storage cannot be read.
pub async fn all(
    table: Table,
    between: Option<(&str, &str)>,
) -> Result<Vec<(String, Vec<u8>)>, String> {
    let range = match between {
        Some((from, until)) => Some(range(from, until)?),
        None => None,
    };
    patient(PATIENCE, async move {
        let held = begin(TransactionMode::ReadOnly).await?;
        let store = held.store(table.name()).map_err(sentence)?;
        let keys = store.get_all_keys(range.clone(), None);
        let (keys, values) = join(keys, store.get_all(range.clone(), None)).await;
        let pairs = keys.map_err(sentence)?.into_iter();
        let pairs = pairs.zip(values.map_err(sentence)?);
        let pairs = pairs.filter_map(|(key, value)| Some((key.as_string()?, bytes_of(value)?)));
        Ok(pairs.collect())
    })
    .await
}

/// Writes all of it or nothing.
///
/// # Errors
/// One sentence when it is not kept.
pub async fn write(orders: &[Order]) -> Result<(), String> {
    let bytes = |order: &Order| match order {
        Order::Put(_, _, bytes) => bytes.len(),
        _ => 0,
    };
    let bytes: usize = orders.iter().map(bytes).sum();
    let patience = PATIENCE.saturating_add((bytes / BYTES_A_MILLISECOND) as u32);
    let orders = orders.to_vec();
    patient(patience, async move {
        let held = begin(TransactionMode::ReadWrite).await?;
        let store = |table: Table| held.store(table.name()).map_err(sentence);
        let stores: Result<Vec<Store>, String> = Table::ALL.into_iter().map(store).collect();
        let stores = stores?;
        let carried = join_all(orders.iter().map(|order| carry_out(order, &stores)));
        // The commit is asked for in the same moment as everything else: a page that is left before
        // the first answer comes loses nothing.
        let (carried, committed) = join(carried, held.commit()).await;
        carried.into_iter().collect::<Result<(), String>>()?;
        committed.map_err(sentence)
    })
    .await
}

async fn carry_out(order: &Order, stores: &[Store]) -> Result<(), String> {
    let store = |table: Table| {
        let mut stores = stores.iter();
        let found = stores.find(|store| store.name() == table.name());
        found.ok_or_else(|| String::from(FORBIDDEN))
    };
    let done = match order {
        Order::Put(table, name, bytes) => {
            let (value, key) = (Uint8Array::from(bytes.as_slice()), JsValue::from_str(name));
            store(*table)?
                .put(&value.into(), Some(&key))
                .await
                .map(drop)
        }
        Order::Delete(table, name) => store(*table)?.delete(JsValue::from_str(name)).await,
        Order::DeleteBetween(table, from, until) => {
            let range = range(from, until)?;
            store(*table)?.delete(range.into()).await
        }
    };
    done.map_err(sentence)
}

fn range(from: &str, until: &str) -> Result<KeyRange, String> {
    let key = JsValue::from_str;
    KeyRange::bound(&key(from), &key(until), None, Some(true))
        .map_err(|error| sentence(Error::from(error)))
}

/// Begins to read or write; once more where the data base was closed meanwhile.
async fn begin(mode: TransactionMode) -> Result<Transaction, String> {
    let tables = Table::ALL.map(Table::name);
    if let Ok(begun) = base().await?.transaction(&tables, mode) {
        return Ok(begun);
    }
    BASE.take();
    base().await?.transaction(&tables, mode).map_err(sentence)
}

/// The data base, opened once.
async fn base() -> Result<Rc<Rexie>, String> {
    if let Some(base) = BASE.with_borrow(Clone::clone) {
        return Ok(base);
    }
    let own = scope::own(DATA_BASE);
    let base = Rc::new(opened(&own).await.map_err(sentence)?);
    if own != DATA_BASE {
        brought::bring_over(&base).await.map_err(sentence)?;
    }
    BASE.set(Some(Rc::clone(&base)));
    Ok(base)
}

async fn opened(name: &str) -> rexie::Result<Rexie> {
    let builder = Rexie::builder(name).version(VERSION);
    let builder = Table::ALL.iter().fold(builder, |builder, table| {
        builder.add_object_store(ObjectStore::new(table.name()))
    });
    builder.build().await
}

/// Waits for an answer, but not for ever. The first one that is late is heard to its end all the same, for
/// what the browser calls must still be there; of those that follow, all they hold would gather for nothing.
async fn patient<T: 'static>(
    patience: u32,
    answer: impl Future<Output = Result<T, String>> + 'static,
) -> Result<T, String> {
    let was_silent = IS_SILENT.get();
    let patience = if was_silent { AFTER_SILENCE } else { patience };
    match select(Box::pin(answer), TimeoutFuture::new(patience)).await {
        Either::Left((answer, _)) => {
            IS_SILENT.set(false);
            answer
        }
        Either::Right((_, late)) => {
            IS_SILENT.set(true);
            if !was_silent {
                spawn_local(async move { drop(late.await) });
            }
            Err(String::from(SILENT))
        }
    }
}

fn sentence(error: Error) -> String {
    let full = format!("{error:?}").contains("QuotaExceeded");
    String::from(if full { FULL } else { FORBIDDEN })
}

fn bytes_of(value: JsValue) -> Option<Vec<u8>> {
    value.dyn_ref::<Uint8Array>().map(Uint8Array::to_vec)
}

#[cfg(all(test, target_family = "wasm"))]
mod tests {
    #![allow(
        clippy::unwrap_used,
        reason = "a browser test may stop at the first surprise"
    )]

    use super::*;
    use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

    wasm_bindgen_test_configure!(run_in_browser);

    fn put(name: &str, bytes: &[u8]) -> Order {
        Order::Put(Table::Journal, name.to_string(), bytes.to_vec())
    }

    #[wasm_bindgen_test]
    async fn bytes_come_back_as_they_were() {
        let bytes: Vec<u8> = (0..70_000_u32).map(|n| (n % 251) as u8).collect();
        write(&[put("a/1", &bytes)]).await.unwrap();
        assert_eq!(read(Table::Journal, "a/1").await.unwrap(), Some(bytes));
    }

    #[wasm_bindgen_test]
    async fn names_from_one_to_another_are_read_and_deleted_together() {
        let orders = ["b/1", "b/2", "b/3", "c/1"].map(|name| put(name, name.as_bytes()));
        write(&orders).await.unwrap();
        let gone = Order::DeleteBetween(Table::Journal, "b/".into(), "b/3".into());
        write(&[gone]).await.unwrap();
        let left = all(Table::Journal, Some(("b/", "c0"))).await.unwrap();
        let names: Vec<&str> = left.iter().map(|(name, _)| name.as_str()).collect();
        assert_eq!(names, ["b/3", "c/1"]);
        assert_eq!(left[0].1, b"b/3");
    }
}
