//! How a value that is shared crosses to another program: as the value itself.

use std::sync::Arc;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

pub(super) fn serialize<T: Serialize, S: Serializer>(
    shared: &Arc<T>,
    serializer: S,
) -> Result<S::Ok, S::Error> {
    (**shared).serialize(serializer)
}

pub(super) fn deserialize<'de, T: Deserialize<'de>, D: Deserializer<'de>>(
    deserializer: D,
) -> Result<Arc<T>, D::Error> {
    T::deserialize(deserializer).map(Arc::new)
}
