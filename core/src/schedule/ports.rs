//! The closet's ports: one a cable, numbered within its kind, in the order of the drops.

use crate::plan::{CableId, CableKindId, DropId, DropKind, Plan};
use crate::units::Mm;

use crate::rules::RuleId;

/// One port of the closet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Port {
    /// The letter of the cable's kind and a number from 1.
    pub name: String,
    /// Its cable.
    pub cable: CableId,
    /// The kind of cable.
    pub kind: CableKindId,
    /// The drop at the other end.
    pub drop: DropId,
    /// Slack left at the closet.
    pub closet_slack: Mm,
    /// Slack left at the drop.
    pub drop_slack: Mm,
    /// The device at the other end takes its power over the cable.
    pub powered: bool,
}

/// Every cable's port, by kind and then in the order of the drops.
pub fn ports(plan: &Plan) -> Vec<Port> {
    let mut ports = Vec::new();
    for (place, spec) in plan.catalogue.cables.iter().enumerate() {
        let kind = CableKindId(place as u16);
        let cables = plan.cables().filter(|(_, cable)| cable.kind == kind);
        for (number, (drop, cable)) in cables.enumerate() {
            ports.push(Port {
                name: format!("{}{}", spec.letter, number + 1),
                cable: cable.id,
                kind,
                drop: drop.id,
                closet_slack: plan.rules.length(RuleId::SlackCloset),
                drop_slack: plan.rules.length(drop.kind.slack_rule()),
                powered: is_powered(drop.kind),
            });
        }
    }
    ports
}

/// Access points and cameras are fed over their cable. Common practice, no source.
fn is_powered(kind: DropKind) -> bool {
    matches!(
        kind,
        DropKind::CeilingAccessPoint | DropKind::WallAccessPoint | DropKind::Camera
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::sample;

    #[test]
    fn every_cable_has_one_port_and_every_port_its_name() {
        let plan = sample::house();
        let ports = ports(&plan);
        let mut cables: Vec<CableId> = ports.iter().map(|port| port.cable).collect();
        cables.sort();
        assert_eq!(cables.len(), plan.cables().count());
        cables.dedup();
        assert_eq!(cables.len(), plan.cables().count());
        let mut names: Vec<&str> = ports.iter().map(|port| port.name.as_str()).collect();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), ports.len());
    }

    #[test]
    fn devices_fed_over_their_cable_are_told() {
        let plan = sample::house();
        let powered = ports(&plan).iter().filter(|port| port.powered).count();
        assert_eq!(powered, 4);
    }
}
