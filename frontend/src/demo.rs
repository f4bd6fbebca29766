//! The invented houses to look at: ordinary saved plans beside the page. The first is what the page
//! opens on when nothing else is there; the others are fetched only when asked for.

use borewright_core::file;
use borewright_core::plan::Plan;

use crate::browser::assets;

/// One house.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Example {
    /// One storey on a slab.
    OneStorey,
    /// Two storeys over a crawl space.
    TwoStoreys,
}

impl Example {
    /// Every house.
    pub const ALL: [Self; 2] = [Self::OneStorey, Self::TwoStoreys];

    /// What it is.
    pub fn words(self) -> &'static str {
        match self {
            Self::OneStorey => "Example of one storey",
            Self::TwoStoreys => "Example of two storeys",
        }
    }

    /// Where it lies beside the page.
    fn address(self) -> &'static str {
        match self {
            Self::OneStorey => "./demo/demo.json",
            Self::TwoStoreys => "./demo/two-storeys.json",
        }
    }

    /// The house; `None` when it cannot be fetched or read.
    pub async fn plan(self) -> Option<Plan> {
        let bytes = assets::read(self.address()).await?;
        file::read(&bytes).ok().map(|opened| opened.plan)
    }
}
