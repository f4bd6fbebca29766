//! Has the plan ready to be handed out should the program stop.

use crate::browser::assets;
use crate::browser::stopped::{Last, remember};
use crate::state::{Desk, Keeping, Place};

/// Remembers the plan before it is drawn, so that a plan that cannot be drawn is not lost either. One
/// that cannot even be worked out never lies on the table: then it is the one before it.
pub fn stand_by(desk: &Desk) {
    let safe = match desk.keeping {
        _ if matches!(desk.place, Place::Elsewhere(_)) => {
            "The job is on this device, kept by the window in which it is changed."
        }
        _ if desk.session.read_only && assets::origin() == "a file" => {
            "The plan is in the page file that you opened, whole."
        }
        _ if desk.session.read_only => "The link that you opened still holds all of the plan.",
        Keeping::Kept => "The plan is kept on this device as it was before that.",
        Keeping::Nothing => "Nothing was changed, so nothing is lost.",
        Keeping::Waiting | Keeping::Failed(_) => {
            "The last change is not kept on this device: save the plan to a file before you leave this page."
        }
    };
    remember(Last {
        plan: desk.session.plan.clone(),
        safe,
    });
}
