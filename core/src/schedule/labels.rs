//! Labels: two at each end of every cable, so that one survives trimming; one a plate, one a port.

use crate::plan::Plan;

use super::ports;

/// Where a label goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LabelPlace {
    /// On the cable at the closet.
    ClosetEnd,
    /// On the cable at the drop.
    DropEnd,
    /// On the faceplate.
    Plate,
    /// On the panel.
    Panel,
}

impl LabelPlace {
    /// The words for it.
    pub fn name(self) -> &'static str {
        match self {
            Self::ClosetEnd => "closet end",
            Self::DropEnd => "drop end",
            Self::Plate => "plate",
            Self::Panel => "panel",
        }
    }
}

/// One label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// What it says in large type: the cable's or the drop's identity.
    pub name: String,
    /// What it says under that.
    pub note: String,
    /// Where it goes.
    pub place: LabelPlace,
}

/// Labels on a cable at each end.
pub const LABELS_PER_END: usize = 2;

/// Every label, cable by cable in the order they are pulled off the sheet: the ends of each cable
/// together, then plates, then the panel.
pub fn labels(plan: &Plan) -> Vec<Label> {
    let mut labels = Vec::new();
    for (drop, cable) in plan.cables() {
        let kind = plan.catalogue.cable(cable.kind);
        let kind = kind.map_or("", |spec| spec.name.as_str());
        for place in [LabelPlace::ClosetEnd, LabelPlace::DropEnd] {
            let note = match place {
                LabelPlace::ClosetEnd => format!("{kind} to {}", drop.label()),
                _ => format!("{kind} to closet"),
            };
            for _ in 0..LABELS_PER_END {
                labels.push(Label {
                    name: plan.cable_label(cable.id),
                    note: note.clone(),
                    place,
                });
            }
        }
    }
    labels.extend(plan.drops.iter().map(|drop| Label {
        name: drop.label(),
        note: drop.kind.name().to_string(),
        place: LabelPlace::Plate,
    }));
    labels.extend(ports(plan).into_iter().map(|port| Label {
        name: plan.cable_label(port.cable),
        note: format!("port {}", port.name),
        place: LabelPlace::Panel,
    }));
    labels
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::sample;

    #[test]
    fn every_end_of_every_cable_has_two() {
        let plan = sample::house();
        let labels = labels(&plan);
        for (_, cable) in plan.cables() {
            let name = plan.cable_label(cable.id);
            for place in [LabelPlace::ClosetEnd, LabelPlace::DropEnd] {
                let count = labels.iter().filter(|l| l.name == name && l.place == place);
                assert_eq!(count.count(), 2, "{name}");
            }
        }
        let plates = labels.iter().filter(|l| l.place == LabelPlace::Plate);
        assert_eq!(plates.count(), plan.drops.len());
    }
}
