//! What ink means. The page maps it to a class, paper to weight, dash and fill.

/// The meaning of a line, an area or a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ink {
    /// Bearing wall: filled.
    WallBearing,
    /// Outside wall: filled.
    WallExterior,
    /// Partition: the open area between its faces.
    WallPartition,
    /// Face or end of a partition.
    WallFace,
    /// Drawn wall that is never to be drilled: its mark.
    NeverDrill,
    /// Identity of a wall.
    WallName,
    /// The gap an opening leaves in its wall: paper.
    OpeningGap,
    /// Window glass, jamb, edge of a cased opening.
    OpeningLine,
    /// Door leaf and its swing.
    DoorSwing,
    /// Name of a room.
    RoomName,
    /// A cable that runs alone; which of [`CABLE_STYLES`] dashes it has.
    Cable(u8),
    /// Several cables in one stretch; how many. See [`trunk_width`].
    Trunk(u16),
    /// Paper beside a cable or trunk of so many, so that it shows in a filled wall and where ways cross.
    Casing(u16),
    /// How many cables a trunk has.
    TrunkCount,
    /// A bore along a wall: the short bar across its member.
    Bore,
    /// The same in joists overhead.
    BoreOver,
    /// The same in joists underfoot.
    BoreUnder,
    /// Where cable comes down from the level above.
    Riser,
    /// A bore seen in an elevation: a dot.
    BoreDot,
    /// A bore up through plates: a ring.
    BoreRing,
    /// A bore down through plates and floor: a filled ring.
    BoreDown,
    /// Number and words of a bore.
    BoreName,
    /// Mark of a bore to be sealed.
    Seal,
    /// Mark of a steel nail plate.
    NailPlate,
    /// Mark of a tie over a weakened plate.
    Tie,
    /// Stud, king or jack.
    Stud,
    /// Plate of a wall.
    Plate,
    /// Header over an opening.
    Header,
    /// Short stud over a header or under a sill.
    Cripple,
    /// Direction of joists or trusses.
    Joist,
    /// What the joists are and how far apart.
    JoistName,
    /// Power cable by others.
    Power,
    /// Name of a power run.
    PowerName,
    /// Edge and hatching of a keep-out.
    KeepOut,
    /// Name of a keep-out.
    KeepOutName,
    /// Dimension line and its figures.
    Dimension,
    /// Line from a label to what it names.
    Leader,
    /// Symbol of a drop: its open outline.
    Drop,
    /// The open box around a drop at which something is left to tick off.
    ToDo,
    /// The tick beside a drop at which everything is done.
    Done,
    /// Letter or figure inside a drop's symbol.
    DropLetter,
    /// Identity of a drop.
    DropName,
    /// Symbol of the closet, filled.
    Closet,
    /// What stands out of the closet's filled symbol.
    ClosetMark,
    /// Edge of the scan.
    ScanFrame,
    /// Scale bar, north arrow, frame of a picture.
    Frame,
    /// Ring of a finding that stops the job.
    FindingStop,
    /// Ring of a finding to look at.
    FindingWarn,
    /// Ring of a finding good to know.
    FindingNote,
    /// Cut wood around a bore in a section.
    Wood,
    /// Grain of that wood.
    Grain,
    /// Steel in front of a bore, cut across.
    Steel,
    /// Identity of a cable in a section.
    CableName,
    /// The circle of a bore in a section.
    BoreCircle,
    /// A cable cut across in a section; which of [`CABLE_STYLES`] it has.
    CableEnd(u8),
    /// Paper under a text that stands on hatching.
    Paper,
    /// Running text.
    Note,
    /// Fine rule of a table.
    Rule,
    /// Heavy rule: under a head, over a foot, a check bar.
    Heavy,
    /// A tick box.
    Box,
    /// A filled area: the dark half of a scale bar, a margin bar.
    Solid,
}

/// Dashes that tell cables apart before colour does: solid, long, short, dots, and mixtures.
pub const CABLE_STYLES: u8 = 8;

impl Ink {
    /// The name of its class on the page.
    pub fn class(self) -> &'static str {
        match self {
            Self::WallBearing => "wall-bearing",
            Self::WallExterior => "wall-exterior",
            Self::WallPartition => "wall-partition",
            Self::WallFace => "wall-face",
            Self::NeverDrill => "never-drill",
            Self::WallName => "wall-name",
            Self::OpeningGap => "opening-gap",
            Self::OpeningLine => "opening-line",
            Self::DoorSwing => "door-swing",
            Self::RoomName => "room-name",
            Self::Cable(_) => "cable",
            Self::Trunk(_) => "trunk",
            Self::Casing(_) => "casing",
            Self::TrunkCount => "trunk-count",
            Self::Bore => "bore",
            Self::BoreOver => "bore-over",
            Self::BoreUnder => "bore-under",
            Self::Riser => "riser",
            Self::BoreDot => "bore-dot",
            Self::BoreRing => "bore-ring",
            Self::BoreDown => "bore-down",
            Self::BoreName => "bore-name",
            Self::Seal => "seal",
            Self::NailPlate => "nail-plate",
            Self::Tie => "tie",
            Self::Stud => "stud",
            Self::Plate => "plate",
            Self::Header => "header",
            Self::Cripple => "cripple",
            Self::Joist => "joist",
            Self::JoistName => "joist-name",
            Self::Power => "power",
            Self::PowerName => "power-name",
            Self::KeepOut => "keep-out",
            Self::KeepOutName => "keep-out-name",
            Self::Dimension => "dimension",
            Self::Leader => "leader",
            Self::Drop => "drop",
            Self::ToDo => "to-do",
            Self::Done => "done",
            Self::DropLetter => "drop-letter",
            Self::DropName => "drop-name",
            Self::Closet => "closet",
            Self::ClosetMark => "closet-mark",
            Self::ScanFrame => "scan-frame",
            Self::Frame => "frame",
            Self::FindingStop => "finding-stop",
            Self::FindingWarn => "finding-warn",
            Self::FindingNote => "finding-note",
            Self::Wood => "wood",
            Self::Grain => "grain",
            Self::Steel => "steel",
            Self::CableName => "cable-name",
            Self::BoreCircle => "bore-circle",
            Self::CableEnd(_) => "cable-end",
            Self::Paper => "paper",
            Self::Note => "note",
            Self::Rule => "rule",
            Self::Heavy => "heavy",
            Self::Box => "box",
            Self::Solid => "solid",
        }
    }

    /// Lengths of dash and gap in paper millimetres, from the first dash on; empty for solid.
    pub fn dashes(self) -> &'static [f64] {
        match self {
            Self::Cable(style) => cable_dashes(style),
            Self::Power => &[0.4, 1.0],
            Self::BoreUnder => &[0.9, 0.6],
            Self::KeepOut | Self::Joist => &[],
            Self::ScanFrame => &[3.0, 1.5],
            Self::FindingNote => &[1.0, 1.0],
            _ => &[],
        }
    }
}

fn cable_dashes(style: u8) -> &'static [f64] {
    match style % CABLE_STYLES {
        0 => &[],
        1 => &[5.0, 1.5],
        2 => &[2.0, 1.2],
        3 => &[4.0, 1.0, 0.6, 1.0],
        4 => &[0.7, 1.0],
        5 => &[5.0, 1.0, 0.6, 0.8, 0.6, 1.0],
        6 => &[7.0, 1.0, 2.0, 1.0],
        _ => &[1.2, 0.8],
    }
}

/// Width of a trunk of so many cables in paper millimetres: grows with the root of the count, as
/// the bundle itself does.
pub fn trunk_width(count: u16) -> f64 {
    (0.35 + 0.3 * f64::from(count).sqrt()).min(2.4)
}

/// Width of the paper shown beside a trunk or a lone cable, its line included, paper millimetres.
pub fn casing_width(count: u16) -> f64 {
    let line = match count {
        0 | 1 => 0.5,
        count => trunk_width(count),
    };
    line + 0.5
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_style_of_cable_has_its_own_dash() {
        let dashes: Vec<_> = (0..CABLE_STYLES).map(cable_dashes).collect();
        for (place, one) in dashes.iter().enumerate() {
            assert!(dashes[place + 1..].iter().all(|other| other != one));
        }
    }

    #[test]
    fn a_thicker_bundle_is_a_wider_line() {
        assert!((1..60).all(|count| trunk_width(count) <= trunk_width(count + 1)));
        assert!(trunk_width(2) > 0.7 && trunk_width(u16::MAX) == 2.4);
    }
}
