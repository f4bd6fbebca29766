//! Plans kept on this device, in the browser's own data base.
//!
//! Bytes are stored as such: some browsers refuse files there.

use js_sys::Uint8Array;
use rexie::{Error, ObjectStore, Rexie, Store, TransactionMode};
use wasm_bindgen::{JsCast, JsValue};

const DATA_BASE: &str = "borewright";
const PLANS: &str = "plans";

/// What a plan is kept as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slot {
    /// The plan on the table.
    Now,
    /// The plan before another job took its place.
    Before,
    /// Bytes that could not be read, kept for whoever can.
    Unread,
}

impl Slot {
    fn key(self) -> JsValue {
        JsValue::from_str(match self {
            Self::Now => "now",
            Self::Before => "before",
            Self::Unread => "unread",
        })
    }
}

/// What is said when this device keeps nothing.
pub const FORBIDDEN: &str = "This browser keeps nothing for this page. The plan stays here while the page is open; save it to a file before you close it.";

/// What is said when there is no room.
pub const FULL: &str = "There is no room left on this device. The plan stays here while the page is open; save it to a file before you close it.";

/// The bytes in a slot, if there are any.
///
/// # Errors
/// One sentence when the storage cannot be read.
pub async fn read(slot: Slot) -> Result<Option<Vec<u8>>, String> {
    let base = open().await?;
    let held = base
        .transaction(&[PLANS], TransactionMode::ReadOnly)
        .map_err(sentence)?;
    let found = held
        .store(PLANS)
        .map_err(sentence)?
        .get(slot.key())
        .await
        .map_err(sentence)?;
    Ok(found.and_then(bytes_of))
}

/// Puts bytes into a slot.
///
/// # Errors
/// One sentence when they are not kept.
pub async fn write(slot: Slot, bytes: &[u8]) -> Result<(), String> {
    change(async |store: &Store| {
        store
            .put(&Uint8Array::from(bytes).into(), Some(&slot.key()))
            .await
            .map(drop)
    })
    .await
}

/// Puts bytes on the table and what lay there before beside it, both or neither.
///
/// # Errors
/// One sentence when they are not kept.
pub async fn write_over(bytes: &[u8]) -> Result<(), String> {
    change(async |store: &Store| {
        if let Some(before) = store.get(Slot::Now.key()).await? {
            store.put(&before, Some(&Slot::Before.key())).await?;
        }
        store
            .put(&Uint8Array::from(bytes).into(), Some(&Slot::Now.key()))
            .await
            .map(drop)
    })
    .await
}

async fn change(work: impl AsyncFnOnce(&Store) -> Result<(), Error>) -> Result<(), String> {
    let base = open().await?;
    let held = base
        .transaction(&[PLANS], TransactionMode::ReadWrite)
        .map_err(sentence)?;
    let store = held.store(PLANS).map_err(sentence)?;
    work(&store).await.map_err(sentence)?;
    held.done().await.map(drop).map_err(sentence)
}

async fn open() -> Result<Rexie, String> {
    let builder = Rexie::builder(DATA_BASE).version(1);
    builder
        .add_object_store(ObjectStore::new(PLANS))
        .build()
        .await
        .map_err(sentence)
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

    #[wasm_bindgen_test]
    async fn bytes_come_back_as_they_were() {
        let bytes: Vec<u8> = (0..70_000_u32).map(|n| (n % 251) as u8).collect();
        write(Slot::Unread, &bytes).await.unwrap();
        assert_eq!(read(Slot::Unread).await.unwrap(), Some(bytes));
    }

    #[wasm_bindgen_test]
    async fn another_job_leaves_the_one_before_beside_it() {
        write(Slot::Now, b"first").await.unwrap();
        write_over(b"second").await.unwrap();
        assert_eq!(
            read(Slot::Now).await.unwrap().as_deref(),
            Some(&b"second"[..])
        );
        assert_eq!(
            read(Slot::Before).await.unwrap().as_deref(),
            Some(&b"first"[..])
        );
        write(Slot::Now, b"third").await.unwrap();
        assert_eq!(
            read(Slot::Before).await.unwrap().as_deref(),
            Some(&b"first"[..])
        );
    }
}
