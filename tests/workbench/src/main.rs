//! The workbench: `cargo serve`, `cargo verify` and `cargo figures`.

fn main() {}
