//! Short notes under names, in what the browser writes at once: of this device, and of this window alone. A
//! browser may refuse either, or keep nothing; then there is nothing, and the page goes on without.

use serde::Serialize;
use serde::de::DeserializeOwned;
use web_sys::Storage;

/// Where notes are.
#[derive(Clone, Copy, Debug)]
pub enum Notes {
    /// On this device, for every window.
    Device,
    /// In this window, until it is closed.
    Window,
}

impl Notes {
    /// What is noted under a name.
    pub fn read<T: DeserializeOwned>(self, name: &str) -> Option<T> {
        let text = self.storage()?.get_item(name).ok()??;
        serde_json::from_str(&text).ok()
    }

    /// Notes something, in place of what was noted under the name.
    pub fn write(self, name: &str, noted: &(impl Serialize + ?Sized)) {
        if let (Some(storage), Ok(text)) = (self.storage(), serde_json::to_string(noted)) {
            // A browser without room for it keeps what it had.
            let _ = storage.set_item(name, &text);
        }
    }

    /// Nothing is noted under a name any more.
    pub fn delete(self, name: &str) {
        if let Some(storage) = self.storage() {
            let _ = storage.remove_item(name);
        }
    }

    /// The names that begin so.
    pub fn names(self, begins: &str) -> Vec<String> {
        let Some(storage) = self.storage() else {
            return Vec::new();
        };
        let count = storage.length().unwrap_or_default();
        let all = (0..count).filter_map(|place| storage.key(place).ok()?);
        all.filter(|name| name.starts_with(begins)).collect()
    }

    fn storage(self) -> Option<Storage> {
        let window = gloo::utils::window();
        match self {
            Self::Device => window.local_storage(),
            Self::Window => window.session_storage(),
        }
        .ok()?
    }
}
