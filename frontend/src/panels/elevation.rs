//! A wall seen from its face: studs, plates, openings, boxes and bores, to scale.

use borewright_core::plan::WallId;
use yew::prelude::*;

/// Which wall.
#[derive(Properties, PartialEq)]
pub struct ElevationProps {
    /// Its identity.
    pub wall: WallId,
}

/// The elevation of a wall.
#[component]
pub fn Elevation(_props: &ElevationProps) -> Html {
    html! {}
}
