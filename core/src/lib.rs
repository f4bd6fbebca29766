//! From a drawing to a drill list.
