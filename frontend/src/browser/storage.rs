//! The browser's own data base: bytes under names, in a few tables.
//!
//! Bytes are stored as such: some browsers refuse files there. What is written together is written all
//! or not at all, and ordered in one go with its commit, so that it goes on when the page is left in
//! the same moment. Much under one name is stored in parts: a browser that keeps large bytes as a file
//! writes that after the page is gone, and gives up all that was ordered with it. It is durable once the
//! browser has handed it to the system; it does not wait until a disk has turned, which would cost more
//! than the moment of an edit.

mod brought;
mod unanswered;

use std::cell::{Cell, RefCell};
use std::future::Future;
use std::rc::Rc;

use futures_util::future::{Either, join, join_all, join3, select};
use gloo::timers::future::TimeoutFuture;
use js_sys::{Function, Reflect, Uint8Array};
use rexie::{Error, KeyRange, ObjectStore, Rexie, Store, Transaction, TransactionMode};
use serde::{Deserialize, Serialize};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::spawn_local;

use super::scope;

pub use unanswered::{Unanswered, forget};

/// The data base at the root of a host; below it each path has one of its own.
const DATA_BASE: &str = "borewright";
const VERSION: u32 = 3;

/// A storage that does not answer within so many milliseconds is silent.
const PATIENCE: u32 = 3_000;

/// One that was silent is asked again with each change, but not waited for as long.
const AFTER_SILENCE: u32 = 300;

/// So many bytes are given a millisecond more.
const BYTES_A_MILLISECOND: usize = 1_000;

/// Most bytes of a part. Chromium makes a file of 64 KiB and more.
const PART: usize = 60_000;

/// Stands between a name and the number of a part. It sorts before everything else that a name has in that place.
const PART_SIGN: char = '\u{1}';

/// What lies in the data base.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
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
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Order {
    /// These bytes under this name.
    Put(Table, String, Vec<u8>),
    /// Nothing under this name any more.
    Delete(Table, String),
    /// Nothing any more under the names from the first on and before the second.
    DeleteBetween(Table, String, String),
}

impl Order {
    fn bytes(&self) -> usize {
        match self {
            Self::Put(_, _, bytes) => bytes.len(),
            Self::Delete(..) | Self::DeleteBetween(..) => 0,
        }
    }

    fn table(&self) -> Table {
        match self {
            Self::Put(table, ..) | Self::Delete(table, _) | Self::DeleteBetween(table, ..) => {
                *table
            }
        }
    }
}

/// What is said when this device keeps nothing.
pub const FORBIDDEN: &str = "This browser keeps nothing for this page. The plan stays here while the page is open; save it to a file before you close it.";

/// What is said when there is no room.
pub const FULL: &str = "There is no room left on this device. The plan stays here while the page is open; save it to a file before you close it.";

/// What is said when the storage never answers.
pub const SILENT: &str = "The storage of this browser does not answer. The plan stays here while the page is open; save it to a file before you close it.";

/// Whether a sentence says that this device keeps nothing of what lies on the table.
pub fn is_sentence(sentence: &str) -> bool {
    [FORBIDDEN, FULL, SILENT].contains(&sentence)
}

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
    let found = all(table, Some((name, &behind_parts(name)))).await?;
    Ok(found.into_iter().next().map(|(_, bytes)| bytes))
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
        let held = begin(TransactionMode::ReadOnly, &[table]).await?;
        let store = held.store(table.name()).map_err(sentence)?;
        let keys = store.get_all_keys(range.clone(), None);
        let (keys, values) = join(keys, store.get_all(range.clone(), None)).await;
        let pairs = keys.map_err(sentence)?.into_iter();
        let pairs = pairs.zip(values.map_err(sentence)?);
        let pairs = pairs.filter_map(|(key, value)| Some((key.as_string()?, bytes_of(value)?)));
        Ok(joined(pairs))
    })
    .await
}

/// Writes all of it or nothing.
///
/// # Errors
/// One sentence when it is not kept.
pub async fn write(orders: &[Order]) -> Result<(), String> {
    write_on(orders, None).await.map(drop)
}

/// Writes all of it or nothing, and tells whether what it rests on is there: somebody may have cleared the
/// storage under an open page.
///
/// # Errors
/// One sentence when it is not kept.
pub async fn write_on(orders: &[Order], rests_on: Option<(Table, String)>) -> Result<bool, String> {
    // The browser refuses a transaction of no tables.
    if orders.is_empty() {
        return Ok(true);
    }
    let bytes: usize = orders.iter().map(Order::bytes).sum();
    let patience = PATIENCE.saturating_add((bytes / BYTES_A_MILLISECOND) as u32);
    let orders = orders.to_vec();
    patient(patience, async move {
        let asked = rests_on.iter().map(|(table, _)| *table);
        let tables: Vec<Table> = orders.iter().map(Order::table).chain(asked).collect();
        let held = begin(TransactionMode::ReadWrite, &tables).await?;
        let store = |table: Table| held.store(table.name()).map_err(sentence);
        let stores: Result<Vec<Store>, String> = tables.into_iter().map(store).collect();
        let stores = stores?;
        let rests = join_all(
            rests_on
                .iter()
                .map(|(table, name)| has(*table, name, &stores)),
        );
        let carried = join_all(orders.iter().map(|order| carry_out(order, &stores)));
        // The commit is asked for in the same moment as everything else: a page that is left before
        // the first answer comes loses nothing.
        let (rests, carried, committed) = join3(rests, carried, held.commit()).await;
        carried.into_iter().collect::<Result<(), String>>()?;
        committed.map_err(sentence)?;
        let rests: Vec<bool> = rests.into_iter().collect::<Result<_, String>>()?;
        Ok(rests.into_iter().all(|there| there))
    })
    .await
}

fn store_of(table: Table, stores: &[Store]) -> Result<&Store, String> {
    let mut stores = stores.iter();
    let found = stores.find(|store| store.name() == table.name());
    found.ok_or_else(|| String::from(FORBIDDEN))
}

/// Whether anything is there under a name.
async fn has(table: Table, name: &str, stores: &[Store]) -> Result<bool, String> {
    let there = store_of(table, stores)?.key_exists(JsValue::from_str(name));
    there.await.map_err(sentence)
}

async fn carry_out(order: &Order, stores: &[Store]) -> Result<(), String> {
    match order {
        Order::Put(table, name, bytes) => put(store_of(*table, stores)?, name, bytes).await,
        Order::Delete(table, name) => {
            let range = range(name, &behind_parts(name))?;
            let done = store_of(*table, stores)?.delete(range.into()).await;
            done.map_err(sentence)
        }
        Order::DeleteBetween(table, from, until) => {
            let range = range(from, until)?;
            let done = store_of(*table, stores)?.delete(range.into()).await;
            done.map_err(sentence)
        }
    }
}

/// Puts bytes under a name in the place of whatever is there, in parts where they are many.
async fn put(store: &Store, name: &str, bytes: &[u8]) -> Result<(), String> {
    let parts = range(&format!("{name}{PART_SIGN}"), &behind_parts(name))?;
    let gone = store.delete(parts.into());
    let part = async |(name, bytes): (String, &[u8])| {
        let (value, key) = (Uint8Array::from(bytes), JsValue::from_str(&name));
        store.put(&value.into(), Some(&key)).await.map(drop)
    };
    // All are ordered at once, in this order.
    let (gone, put) = join(gone, join_all(in_parts(name, bytes).into_iter().map(part))).await;
    gone.map_err(sentence)?;
    put.into_iter()
        .collect::<rexie::Result<()>>()
        .map_err(sentence)
}

/// The parts of what is stored under a name; one where it is little.
fn in_parts<'b>(name: &str, bytes: &'b [u8]) -> Vec<(String, &'b [u8])> {
    if bytes.is_empty() {
        return vec![(name.to_string(), bytes)];
    }
    let named = |(place, part): (usize, &'b [u8])| match place {
        0 => (name.to_string(), part),
        more => (format!("{name}{PART_SIGN}{more:06}"), part),
    };
    bytes.chunks(PART).enumerate().map(named).collect()
}

/// A name behind all parts of what is stored under another.
fn behind_parts(name: &str) -> String {
    format!("{name}\u{2}")
}

/// Parts put together again, each of which follows the one before it. A part whose beginning is gone is none.
fn joined(parts: impl Iterator<Item = (String, Vec<u8>)>) -> Vec<(String, Vec<u8>)> {
    let mut whole: Vec<(String, Vec<u8>)> = Vec::new();
    for (name, bytes) in parts {
        match name.split_once(PART_SIGN) {
            None => whole.push((name, bytes)),
            Some((of, _)) => {
                if let Some((_, held)) = whole.last_mut().filter(|(name, _)| name == of) {
                    held.extend(bytes);
                }
            }
        }
    }
    whole
}

fn range(from: &str, until: &str) -> Result<KeyRange, String> {
    let key = JsValue::from_str;
    KeyRange::bound(&key(from), &key(until), None, Some(true))
        .map_err(|error| sentence(Error::from(error)))
}

/// Begins to read or write in these tables; once more where the data base was closed meanwhile. It waits
/// for nothing that is done in other tables: an edit made as the page is left must not.
async fn begin(mode: TransactionMode, tables: &[Table]) -> Result<Transaction, String> {
    let tables: Vec<&str> = tables.iter().map(|table| table.name()).collect();
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
    unanswered::bring_in(&base).await;
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

    pub(super) fn put(name: &str, bytes: &[u8]) -> Order {
        Order::Put(Table::Journal, name.to_string(), bytes.to_vec())
    }

    #[wasm_bindgen_test]
    async fn bytes_come_back_as_they_were() {
        let bytes: Vec<u8> = (0..70_000_u32).map(|n| (n % 251) as u8).collect();
        write(&[put("a/1", &bytes)]).await.unwrap();
        assert_eq!(read(Table::Journal, "a/1").await.unwrap(), Some(bytes));
    }

    #[wasm_bindgen_test]
    async fn what_is_stored_in_parts_is_put_and_taken_away_as_one() {
        let large = |sign: u8| vec![sign; 3 * PART];
        write(&[put("d/1", &large(1)), put("d/10", &large(2))])
            .await
            .unwrap();
        write(&[put("d/1", &[3; PART + 1])]).await.unwrap();
        let held = all(Table::Journal, Some(("d/", "d0"))).await.unwrap();
        let sizes: Vec<(&str, usize)> = held
            .iter()
            .map(|(name, bytes)| (name.as_str(), bytes.len()))
            .collect();
        assert_eq!(sizes, [("d/1", PART + 1), ("d/10", 3 * PART)]);
        write(&[Order::Delete(Table::Journal, "d/1".into())])
            .await
            .unwrap();
        let held = all(Table::Journal, Some(("d/", "d0"))).await.unwrap();
        assert_eq!(held.len(), 1);
        assert_eq!(held[0].1, large(2));
        let gone = Order::DeleteBetween(Table::Journal, "d/".into(), "d/11".into());
        write(&[gone]).await.unwrap();
        assert!(
            all(Table::Journal, Some(("d/", "d0")))
                .await
                .unwrap()
                .is_empty()
        );
    }

    #[wasm_bindgen_test]
    async fn what_rests_on_nothing_is_told() {
        let rests_on = || Some((Table::Journal, String::from("e/1")));
        assert_eq!(write_on(&[put("e/2", b"b")], rests_on()).await, Ok(false));
        write(&[put("e/1", b"a")]).await.unwrap();
        assert_eq!(write_on(&[put("e/2", b"b")], rests_on()).await, Ok(true));
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
