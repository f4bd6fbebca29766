//! Settled ways kept on this device, beside the jobs.
//!
//! They are only a saving: what cannot be read or written is worked out again, and nobody is told.

use super::storage::{self, Order, Table};

/// Where the names stand, a line each, latest first.
const NAMES: &str = "names";

/// So many answers are kept; the one that was kept longest ago goes first.
const MOST: usize = 40;

/// The bytes kept under a name, if there are any and they come in time.
pub async fn read(name: &str) -> Option<Vec<u8>> {
    storage::read(Table::Ways, name).await.ok()?
}

/// Keeps bytes under a name.
pub async fn write(name: &str, bytes: &[u8]) {
    let known = read(NAMES).await.unwrap_or_default();
    let known = String::from_utf8_lossy(&known);
    let others = known.lines().filter(|known| *known != name);
    let mut names: Vec<&str> = [name].into_iter().chain(others).collect();
    let gone = names.split_off(names.len().min(MOST));
    let delete = |name: &str| Order::Delete(Table::Ways, name.to_string());
    let put = |name: &str, bytes: &[u8]| Order::Put(Table::Ways, name.to_string(), bytes.to_vec());
    let mut orders: Vec<Order> = gone.into_iter().map(delete).collect();
    orders.push(put(name, bytes));
    orders.push(put(NAMES, names.join("\n").as_bytes()));
    // A device that keeps nothing works the ways out again; the keeping of the plan says so.
    let _ = storage::write(&orders).await;
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
