//! Pages of the sample house as text, so that a change of what is printed is seen. What comes from
//! routing is made by hand here: these goldens are about paper.

use expect_test::{Expect, expect};

use super::mark::Mark;
use super::*;
use crate::bore::DrillRow;
use crate::picture::sample;
use crate::plan::{CableId, CableKindId, DropId, WallId};
use crate::schedule::{CableTotal, Cut, CutList, Pull, Reel, Totals};
use crate::units::{Mm, Size as Bit};

/// Texts nearer than this in height stand on one line, millimetres.
const LINE: f64 = 4.6;

/// The texts of a page line by line, cells apart by a bar.
pub(super) fn lines(page: &Page) -> String {
    let mut texts: Vec<(f64, f64, String)> = page
        .marks()
        .filter_map(|mark| match mark {
            Mark::Text { at, text, .. } => Some((at.y, at.x, text)),
            _ => None,
        })
        .collect();
    texts.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut rows: Vec<Vec<(f64, f64, String)>> = Vec::new();
    for text in texts {
        match rows.last_mut() {
            Some(row) if text.0 - row[0].0 < LINE => row.push(text),
            _ => rows.push(vec![text]),
        }
    }
    let mut out = String::new();
    for mut row in rows {
        row.sort_by(|a, b| a.1.total_cmp(&b.1).then(a.0.total_cmp(&b.0)));
        let words: Vec<String> = row.into_iter().map(|(.., words)| words).collect();
        out.push_str(&words.join(" | "));
        out.push('\n');
    }
    out
}

fn check(kind: Kind, expected: Expect) {
    let plan = sample::house();
    let pages = Sheets::of(&plan, &by_hand(&plan), &Paper::of(Size::Letter));
    let page = pages.iter().find(|page| page.kind == kind).unwrap();
    expected.assert_eq(&lines(page));
}

/// A design with two rows of bores and three cuts.
pub(super) fn by_hand(plan: &Plan) -> Design {
    let mut thick = row(
        2,
        "top plates",
        "W6, stud 3 from its W2 end, 7-1/4\" past its far face",
        1.5,
        "centred",
    );
    thick.cables = (1..=20).map(CableId).collect();
    thick.nail_plates = 2;
    let studs = row(
        1,
        "5 studs",
        "W6, studs 5 to 9 from its W4 end",
        0.625,
        "24 in AFF",
    );
    let cut = |cable, drop, feet, pull| Cut {
        cable: CableId(cable),
        drop: DropId(drop),
        kind: CableKindId::CAT6,
        path: Mm::feet(feet - 12.0),
        slack: Mm::feet(11.5),
        waste: Mm::feet(0.5),
        length: Mm::feet(feet),
        pull,
        trunk: (pull == 1).then_some(0),
        reel: Some(usize::from(cable == 2)),
    };
    Design {
        framing: crate::framing::Framing::of(plan).into(),
        drill_list: vec![studs, thick],
        cut_list: CutList {
            cuts: vec![cut(1, 1, 78.0, 1), cut(2, 1, 78.0, 1), cut(3, 2, 51.0, 2)],
            reels: vec![reel("Cat 6 reel 1", 871.0), reel("Cat 6 reel 2", 922.0)],
            kinds: Vec::new(),
            pulls: vec![pull(1, &[1, 2], &[1]), pull(2, &[3], &[2])],
        },
        totals: totals(),
        ..Design::default()
    }
}

fn pull(number: u32, cables: &[u32], drops: &[u32]) -> Pull {
    Pull {
        number,
        cables: cables.iter().map(|id| CableId(*id)).collect(),
        drops: drops.iter().map(|id| DropId(*id)).collect(),
        reels: vec![0, 1],
        set_up: if number == 1 { vec![0, 1] } else { Vec::new() },
        walked: Mm::feet(30.0),
    }
}

fn reel(name: &str, left: f64) -> Reel {
    Reel {
        name: name.to_string(),
        kind: CableKindId::CAT6,
        length: Mm::feet(1000.0),
        left: Mm::feet(left),
        part: false,
    }
}

fn row(number: u32, what: &str, location: &str, bit: f64, height: &str) -> DrillRow {
    DrillRow {
        number,
        level: LevelId(1),
        wall: Some(WallId(6)),
        bores: Vec::new(),
        members: 1,
        what: what.to_string(),
        whereabouts: None,
        location: location.to_string(),
        member: String::from("partition 2x4"),
        bit: Bit::inches(bit),
        height: height.to_string(),
        cables: vec![CableId(1), CableId(2)],
        fill: 0.286,
        nail_plates: 0,
        ties: 0,
        seals: 1,
    }
}

fn totals() -> Totals {
    Totals {
        drops: 16,
        cables: 27,
        cable: vec![CableTotal {
            kind: CableKindId::CAT6,
            cables: 23,
            length: Mm::feet(1214.0),
            reels: 2,
        }],
        reels: 2,
        bores: 46,
        by_bit: vec![(Bit::inches(0.625), 40), (Bit::inches(1.5), 6)],
        nail_plates: 4,
        seals: 12,
        supports: 31,
        brackets: [11, 1, 0, 0],
        keystones: 24,
        hours: 11.5,
        ..Totals::default()
    }
}

#[test]
fn the_pages_of_a_job() {
    let plan = sample::house();
    let pages = Sheets::of(&plan, &by_hand(&plan), &Paper::of(Size::Letter));
    let list = pages.iter().map(|page| {
        let scale = page.scale.map_or("", |scale| scale.name);
        let Extent { width, height } = page.extent;
        format!("{width} x {height} | {} | {scale}\n", page.name)
    });
    expect![[r#"
        215.9 x 279.4 | Cover | 
        215.9 x 279.4 | The day in order | 
        279.4 x 215.9 | For the builder | 
        279.4 x 215.9 | Ground · plan | 1/8 in = 1 ft
        279.4 x 215.9 | Ground · wall elevations | 
        279.4 x 215.9 | Ground · wall elevations | 
        279.4 x 215.9 | Room list | 
        279.4 x 215.9 | Drill list | 
        215.9 x 279.4 | Cut list and pull sheet | 
        215.9 x 279.4 | Cut list and pull sheet | 
        215.9 x 279.4 | Closet sheet | 
        215.9 x 279.4 | Protection sheet · bores | 
        215.9 x 279.4 | Protection sheet · boxes | 
        279.4 x 215.9 | Trim-out list | 
        279.4 x 215.9 | Trim-out list | 
        215.9 x 279.4 | Test record | 
        215.9 x 279.4 | For the owner | 
        215.9 x 279.4 | For the owner | 
        215.9 x 279.4 | Labels: 1-3/4 by 1/2 in, 80 to a letter sheet | 
        215.9 x 279.4 | Labels: 1-3/4 by 1/2 in, 80 to a letter sheet | 
    "#]]
    .assert_eq(&list.collect::<String>());
}

#[test]
fn the_drill_list() {
    check(
        Kind::DrillList,
        expect![[r#"
            Drill list | Drill
            Places: from the face or end named to the bore's middle. AFF: from under the bottom plate, the floor's finish not counted. Centre every bore. Ask: it goes | through what bears, the builder sees it before you drill. Steel: one plate on each face. D1A/B: cables D1A and D1B. Drilled elsewhere: in red in the margin. | rev 1
            No. | bit | where | what | height | cables through | drilled | steel nailed | sealed
            Ground
            1 | 5/8 in | W6, studs 5 to 9 from its W4 end | 5 studs, partition 2x4 | 24 in AFF | D1A/B | 1
            2 | 1-1/2 in | W6, stud 3 from its W2 end, | top plates, partition 2x4 | centred | D1A/B D2A/B T3A/B D4A/B | D5A/B D6A/B D7A/B D8A/B | 2 plates | 1
            7-1/4" past its far face | T9A/B D10A/B
            Larch Row, lot 3 | Within the rule set you chose (United States, model codes). Wear eye protection. Look for power, gas and water behind every bore. | Ask before boring what bears, trusses, beams or engineered wood. Local code, builder and licensed trades decide.
            100 mm at 100 % | version VNCG-VPKL-XGCM | 8 of 18
        "#]],
    );
}

#[test]
fn the_pull_sheet() {
    check(
        Kind::PullSheet,
        expect![[r#"
            Cut list and pull sheet, 1 of 2 | Pull
            Cut lengths hold slack at both ends and waste. Label both ends before pulling. | rev 1
            cable | path | slack | cut | reel | start mark | end mark | pulled | labelled
            Two people, one way to pull
            The reels stand at the closet, and every pull starts there. One of you stays at the closet, feeds the cables into the first | bore and keeps them from kinking. The other takes the heads out, bore by bore, and lets each box's cables off where
            the pull says so; the farthest box stands first. | The box's end is the start mark: write down the foot mark printed on the jacket there, leave the slack, and cut at the
            closet, where the end mark is. The bores of a box are named from the box to the closet, those of a trunk from the closet.
            Reels and pulls
            2 pulls; 0 ft of trunk to walk; 2 set-ups of a reel; no box is visited twice.
            Pull 1 · 2 cables · D1 Bed 1
            At the closet set up Cat 6 reel 1 and Cat 6 reel 2.
            D1A | 66 ft | 12 ft | 78 ft | Cat 6 reel 1
            D1B | 66 ft | 12 ft | 78 ft | Cat 6 reel 2
            D1, Bed 1, outlet 16 in.
            Pull 2 · 1 cable · D2 Bed 1
            The reels stay as they stand.
            D2A | 39 ft | 12 ft | 51 ft | Cat 6 reel 1
            D2, Bed 1, outlet 16 in.
            No way yet: not to be pulled
            D2B | no way yet
            D2, Bed 1, outlet 16 in
            T3A | no way yet
            T3B | no way yet
            T3, Bed 1, television 48 in
            D4A | no way yet
            D4B | no way yet
            D4, Bed 1, outlet 16 in
            D5A | no way yet
            D5B | no way yet
            D5, Bed 2, outlet 16 in
            D6A | no way yet
            D6B | no way yet
            D6, Study, outlet 16 in
            D7A | no way yet
            D7B | no way yet
            D7, Study, outlet 16 in
            D8A | no way yet
            Larch Row, lot 3 | Within the rule set you chose (United States, model codes). Wear eye protection. Look for | power, gas and water behind every bore. Ask before boring what bears, trusses, beams or
            engineered wood. Local code, builder and licensed trades decide.
            100 mm at 100 % | version VNCG-VPKL-XGCM | 9 of 18
        "#]],
    );
}

#[test]
fn the_room_list() {
    check(
        Kind::RoomList,
        expect![[r#"
            Room list | Rooms
            Clockwise from the door. Facing the wall, from its inside corners; outdoors from its ends; ceilings from the walls on the sheet's left and top, which are named. | Heights from under the bottom plate, the floor's finish not counted. Box: a low-voltage bracket, or what is told. Leave: cable at the box. | rev 1
            drop | room | what, where | from left | from right | height | cables | box, and what it hangs on | leave | box | pulled | labelled
            Ground
            D1 | Bed 1 | outlet, W1 | 1' 8-7/8" | 11' 1/8" | 16 in | D1A/B | on 2x6 blocking between studs 3 and 4 | 1' 6"
            T3 | Bed 1 | television, W6 | 5' 1/4" | 8' 4-5/8" | 48 in | T3A/B | on 2x4 blocking between studs 4 and 5 | 4' 0"
            D4 | Bed 1 | outlet, W6 | 5' 1/4" | 8' 4-5/8" | 16 in | D4A/B | on 2x4 blocking between studs 4 and 5 | 1' 6"
            D2 | Bed 1 | outlet, W6 | 10' 7-3/16" | 2' 9-11/16" | 16 in | D2A/B | cannot hang here: nearest 10' 6-3/16" | from left, on stud 9, W1 side | 1' 6"
            D5 | Bed 2 | outlet, W7 | 8' 11-1/2" | 4' 5-3/8" | 16 in | D5A/B | on 2x4 blocking between studs 7 and 8 | 1' 6"
            D6 | Study | outlet, W7 | 9' 1/2" | 4' 4-3/8" | 16 in | D6A/B | on 2x4 blocking between studs 4 and 5 | 1' 6"
            D7 | Study | outlet, W2 | 4' 8-5/16" | 8' 8-9/16" | 16 in | D7A/B | on 2x6 blocking between studs 4 and 5 | 1' 6"
            A15 | Hall | ceiling access | point | 10' 3-1/4" | from W4 | 1' 11-7/8" | from W5 | A15A | box by others | 4' 0"
            D11 | Bath | outlet, W3 | 7' 7/8" | 7' 7-3/4" | 16 in | D11A/B | on 2x6 blocking between studs 25 and | 26 | 1' 6"
            T9 | Living | television, W10 | 8' 4-5/8" | 6' 4" | 16 in | T9A/B | on 2x4 blocking between studs 7 and 8 | 4' 0"
            D10 | Living | outlet, W10 | 9' 8-3/8" | 5' 1/4" | 16 in | D10A/B | on 2x4 blocking between studs 8 and 9 | 1' 6"
            A16 | Living | ceiling access | point | 7' 8-3/4" | from W8 | 11' 1/8" | from W5 | A16A | box by others | 4' 0"
            D8 | Kitchen | outlet, W5 | 7' 4-13/16" | 1' 8-7/8" | 44 in | D8A/B | on 2x4 blocking between studs 34 and | 35 | 1' 6"
            C12 | outdoors | camera, outside | W1 | 39' 7-3/16" | 10-5/8" | 108 in | C12A | no box, outdoors | 4' 0"
            C13 | outdoors | camera, outside | W2 | 1' 2-9/16" | 28' 1-3/8" | 108 in | C13A | no box, outdoors | 4' 0"
            B14 | outdoors | doorbell, outside | W3 | 24' 6-1/8" | 15' 11-3/4" | 45 in | B14A | no box, outdoors | 1' 6"
            Larch Row, lot 3 | Within the rule set you chose (United States, model codes). Wear eye protection. Look for power, gas and water behind every bore. | Ask before boring what bears, trusses, beams or engineered wood. Local code, builder and licensed trades decide.
            100 mm at 100 % | version VNCG-VPKL-XGCM | 7 of 18
        "#]],
    );
}

#[test]
fn the_cover() {
    check(
        Kind::Cover,
        expect![[r#"
            Larch Row, lot 3 | Cover
            Low-voltage cabling · revision 1 | rev 1
            Totals | Bring
            drops | cables | 16 | 27 | Cat 6 reel 1, 1,000 ft
            Cat 6 | bores | 1,214 ft, 2 reels | 46 | Cat 6 reel 2, 1,000 ft
            5/8 in | 1-1/2 in | 40 | 6 | bits 5/8, 1-1/2 in, long and short
            steel nail plates | 4 | 11 low-voltage brackets, 1 gang
            seals | supports | 12 | 31 | 1 low-voltage bracket, 2 gang
            keystone jacks | hours | 24 | 11.5 | 7 blocks of 2x4 between studs, cut to the bay
            rough-in | trim-out | 2.6 | 4.5 | 3 blocks of 2x6 between studs, cut to the bay
            4 steel nail plates
            To look at | 31 cable supports
            Nothing: every check is clear.
            sealant for 12 bores
            Who to call | labels, hook-and-loop ties, pull string, tester
            Cautions
            Everything here is within the rule set you chose (United | States, model codes) or named in the findings. The local
            code, the builder and the licensed trades decide.
            Wear eye protection. Look and feel for power, gas and | water behind every bore before drilling.
            Bearing members: ask the builder before drilling.
            No holes in trusses, beams or engineered wood without the | maker's word.
            Ladders and attics: three points of contact, and step on | framing only.
            Power cable is for the electrician. Keep clear of it, and | never open a live box.
            Dates
            drill
            pull
            cover
            trim-out
            Larch Row, lot 3 | Within the rule set you chose (United States, model codes). Wear eye protection. Look for | power, gas and water behind every bore. Ask before boring what bears, trusses, beams or
            engineered wood. Local code, builder and licensed trades decide.
            100 mm at 100 % | version VNCG-VPKL-XGCM | 1 of 18
        "#]],
    );
}
