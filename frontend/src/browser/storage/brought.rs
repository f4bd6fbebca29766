//! What the data base of all paths of a host holds is brought over into the one of this path, once. It stays
//! there as well, for the pages of other paths that kept it.

use futures_util::future::join;
use js_sys::{Array, Function, Promise, Reflect};
use rexie::{Result, Rexie, Store, TransactionMode};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

use super::{DATA_BASE, Table, opened};
use crate::browser::notes::Notes;
use crate::browser::scope;

/// Where it is noted that it was done.
const NOTE: &str = "borewright brought over";

/// Brings over what is there. Nothing is noted where that cannot be read: it is tried again.
pub(super) async fn bring_over(to: &Rexie) -> Result<()> {
    let note = scope::own(NOTE);
    if Notes::Device.read::<bool>(&note).is_some() {
        return Ok(());
    }
    if is_there().await {
        let from = opened(DATA_BASE).await?;
        let copied = copy(&from, to).await;
        from.close();
        copied?;
    }
    // Where nothing can be noted, only an empty data base is filled again.
    Notes::Device.write(&note, &true);
    Ok(())
}

/// Whether a data base of all paths was ever made. A browser that does not tell makes an empty one.
async fn is_there() -> bool {
    let names = async || -> Option<Array> {
        let window = gloo::utils::window();
        let factory = Reflect::get(&window, &"indexedDB".into()).ok()?;
        let asks = Reflect::get(&factory, &"databases".into()).ok()?;
        let told = asks.dyn_ref::<Function>()?.call0(&factory).ok()?;
        JsFuture::from(told.dyn_into::<Promise>().ok()?)
            .await
            .ok()?
            .dyn_into()
            .ok()
    };
    let is_it = |base: JsValue| {
        let name = Reflect::get(&base, &"name".into()).ok();
        name.and_then(|name| name.as_string()).as_deref() == Some(DATA_BASE)
    };
    match names().await {
        Some(names) => names.iter().any(is_it),
        None => true,
    }
}

/// Copies every table, unless the other data base has a job or a plan of its own already.
async fn copy(from: &Rexie, to: &Rexie) -> Result<()> {
    let tables = Table::ALL.map(Table::name);
    let read = from.transaction(&tables, TransactionMode::ReadOnly)?;
    let mut all = Vec::new();
    for table in tables {
        let store = read.store(table)?;
        let (keys, values) = join(store.get_all_keys(None, None), store.get_all(None, None)).await;
        all.push((table, keys?, values?));
    }
    let written = to.transaction(&tables, TransactionMode::ReadWrite)?;
    for table in [Table::Jobs, Table::Journal, Table::Plans] {
        if written.store(table.name())?.count(None).await? > 0 {
            return Ok(());
        }
    }
    for (table, keys, values) in all {
        let store: Store = written.store(table)?;
        for (key, value) in keys.iter().zip(&values) {
            store.put(value, Some(key)).await?;
        }
    }
    written.done().await.map(drop)
}
