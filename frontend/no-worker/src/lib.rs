//! Nothing. Yew depends on a collection of libraries that brings a worker library along, and with it
//! `bincode` 1, which nobody maintains. Nothing here uses that library; this stands in its place until the
//! collection lets go of it.
