//! Settled ways kept on this device, in a data base of their own beside the plans.
//!
//! They are only a saving: what cannot be read or written is worked out again, and nobody is told.

use futures_util::future::{Either, select};
use gloo::timers::future::TimeoutFuture;
use js_sys::{Array, Uint8Array};
use rexie::{Error, ObjectStore, Rexie, Store, TransactionMode};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, future_to_promise};

const DATA_BASE: &str = "borewright-ways";
const WAYS: &str = "ways";

/// Where the names stand, latest first.
const NAMES: &str = "names";

/// So many answers are kept; the one that was kept longest ago goes first.
const MOST: usize = 40;

/// A storage that does not answer within so many milliseconds is not waited for: in most houses the ways
/// are worked out sooner.
const PATIENCE: u32 = 1_500;

/// The bytes kept under a name, if there are any and they come in time. Reading goes on where they do not:
/// what the browser still has to say is heard to the end.
pub async fn read(name: &str) -> Option<Vec<u8>> {
    let name = name.to_string();
    let reading = future_to_promise(async move {
        let bytes = found(&name).await;
        Ok(bytes.map_or(JsValue::NULL, |bytes| Uint8Array::from(&bytes[..]).into()))
    });
    let answer = match select(JsFuture::from(reading), TimeoutFuture::new(PATIENCE)).await {
        Either::Left((answer, _)) => answer.ok()?,
        Either::Right(_) => return None,
    };
    answer.dyn_ref::<Uint8Array>().map(Uint8Array::to_vec)
}

async fn found(name: &str) -> Option<Vec<u8>> {
    let base = open().await.ok()?;
    let held = base.transaction(&[WAYS], TransactionMode::ReadOnly).ok()?;
    let found = held.store(WAYS).ok()?.get(name.into()).await.ok()??;
    found.dyn_ref::<Uint8Array>().map(Uint8Array::to_vec)
}

/// Keeps bytes under a name.
pub async fn write(name: &str, bytes: &[u8]) {
    // A device that keeps nothing works the ways out again; the keeping of the plan says so.
    let _ = put(name, bytes).await;
}

async fn put(name: &str, bytes: &[u8]) -> Result<(), Error> {
    let base = open().await?;
    let held = base.transaction(&[WAYS], TransactionMode::ReadWrite)?;
    let store = held.store(WAYS)?;
    store
        .put(&Uint8Array::from(bytes).into(), Some(&name.into()))
        .await?;
    let mut names = names(&store).await?;
    names.retain(|known| known != name);
    names.insert(0, name.to_string());
    for old in names.split_off(names.len().min(MOST)) {
        store.delete(old.into()).await?;
    }
    let list: Array = names.iter().map(JsValue::from).collect();
    store.put(&list.into(), Some(&NAMES.into())).await?;
    held.done().await.map(drop)
}

async fn names(store: &Store) -> Result<Vec<String>, Error> {
    let found = store.get(NAMES.into()).await?;
    let list = found.and_then(|found| found.dyn_into::<Array>().ok());
    let list = list.unwrap_or_default();
    Ok(list.iter().filter_map(|name| name.as_string()).collect())
}

async fn open() -> Result<Rexie, Error> {
    let builder = Rexie::builder(DATA_BASE).version(1);
    builder
        .add_object_store(ObjectStore::new(WAYS))
        .build()
        .await
}

#[cfg(all(test, target_family = "wasm"))]
mod tests {
    use super::*;
    use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

    wasm_bindgen_test_configure!(run_in_browser);

    #[wasm_bindgen_test]
    async fn the_latest_answers_come_back_and_the_oldest_go() {
        write("first", b"one").await;
        assert_eq!(read("first").await.as_deref(), Some(&b"one"[..]));
        for count in 0..MOST {
            write(&format!("later {count}"), b"more").await;
        }
        assert_eq!(read("first").await, None);
        assert_eq!(read("later 0").await.as_deref(), Some(&b"more"[..]));
    }
}
