//! How far an arrangement is from fitting: the sum of squared overlaps and squared protrusions.
//!
//! It is zero exactly when the circles fit. Lengths are in units of the largest radius. This file
//! only measures; it moves nothing.

/// Centre of a circle, the middle of the bore being the origin.
pub(super) type Point = [f64; 2];

/// How much farther than touching two circles may be and still stand in the list of neighbours.
const SKIN: f64 = 0.35;

/// What a step costs beside its pairs, in pairs: so that small and large bundles take as long.
const STEP: usize = 24;

#[derive(Clone, Copy, Debug)]
struct Pair {
    first: u32,
    second: u32,
    /// Sum of the two radii: the distance below which they overlap.
    reach: f64,
}

/// Measures arrangements of one set of circles inside one bore.
#[derive(Clone, Debug)]
pub(super) struct Energy {
    pub(super) radii: Vec<f64>,
    /// Radius of the bore.
    pub(super) bore: f64,
    /// Pairs looked at so far: the measure of effort, in place of time.
    pub(super) checks: u64,
    near: Vec<Pair>,
    anchor: Vec<Point>,
}

impl Energy {
    pub(super) fn new(radii: &[f64]) -> Self {
        let far = [f64::INFINITY; 2];
        let anchor = vec![far; radii.len()];
        Self {
            radii: radii.to_vec(),
            bore: 0.0,
            checks: 0,
            near: Vec::new(),
            anchor,
        }
    }

    /// The energy of an arrangement; its slope is written to `slope`.
    pub(super) fn measure(&mut self, centres: &[Point], slope: &mut [Point]) -> f64 {
        self.refresh(centres);
        slope.fill([0.0; 2]);
        self.checks += (self.near.len() + centres.len() + STEP) as u64;
        self.overlaps(centres, slope) + self.protrusions(centres, slope)
    }

    fn overlaps(&self, centres: &[Point], slope: &mut [Point]) -> f64 {
        let mut sum = 0.0;
        for pair in &self.near {
            let (first, second) = (pair.first as usize, pair.second as usize);
            let [dx, dy] = between(centres[first], centres[second]);
            let squared = dx * dx + dy * dy;
            if squared >= pair.reach * pair.reach {
                continue;
            }
            let distance = squared.sqrt();
            let overlap = pair.reach - distance;
            sum += overlap * overlap;
            let [px, py] = push([dx, dy], distance, 2.0 * overlap);
            slope[first][0] += px;
            slope[first][1] += py;
            slope[second][0] -= px;
            slope[second][1] -= py;
        }
        sum
    }

    fn protrusions(&self, centres: &[Point], slope: &mut [Point]) -> f64 {
        let mut sum = 0.0;
        for ((centre, radius), slope) in centres.iter().zip(&self.radii).zip(slope) {
            let squared = centre[0] * centre[0] + centre[1] * centre[1];
            let free = self.bore - radius;
            if free > 0.0 && squared <= free * free {
                continue;
            }
            let distance = squared.sqrt();
            let out = distance - free;
            sum += out * out;
            let [px, py] = push(*centre, distance, 2.0 * out);
            slope[0] += px;
            slope[1] += py;
        }
        sum
    }

    /// How hard each circle is squeezed: its own overlaps and protrusion, squared and summed.
    pub(super) fn squeeze(&mut self, centres: &[Point], squeeze: &mut Vec<f64>) {
        self.refresh(centres);
        squeeze.clear();
        squeeze.extend(centres.iter().zip(&self.radii).map(|(centre, radius)| {
            let out = (length(*centre) + radius - self.bore).max(0.0);
            out * out
        }));
        for pair in &self.near {
            let (first, second) = (pair.first as usize, pair.second as usize);
            let overlap = pair.reach - length(between(centres[first], centres[second]));
            let overlap = overlap.max(0.0);
            squeeze[first] += overlap * overlap;
            squeeze[second] += overlap * overlap;
        }
    }

    /// Forgets the list of neighbours: needed after circles were exchanged.
    pub(super) fn forget(&mut self) {
        self.anchor.fill([f64::INFINITY; 2]);
    }

    /// Lists the neighbours anew when some circle has moved by half the skin.
    fn refresh(&mut self, centres: &[Point]) {
        let limit = 0.25 * SKIN * SKIN;
        let still = centres.iter().zip(&self.anchor).all(|(centre, anchor)| {
            let [dx, dy] = between(*centre, *anchor);
            dx * dx + dy * dy <= limit
        });
        if !still {
            self.list(centres);
        }
    }

    fn list(&mut self, centres: &[Point]) {
        self.anchor.copy_from_slice(centres);
        self.near.clear();
        let count = centres.len();
        self.checks += (count * count / 2) as u64;
        for first in 0..count {
            for second in first + 1..count {
                let [dx, dy] = between(centres[first], centres[second]);
                let reach = self.radii[first] + self.radii[second];
                let seen = reach + SKIN;
                if dx * dx + dy * dy < seen * seen {
                    let (first, second) = (first as u32, second as u32);
                    self.near.push(Pair {
                        first,
                        second,
                        reach,
                    });
                }
            }
        }
    }
}

/// From one point to the other.
pub(super) fn between(from: Point, to: Point) -> Point {
    [to[0] - from[0], to[1] - from[1]]
}

/// Distance from the origin. (`hypot` differs between machines; this does not.)
pub(super) fn length(point: Point) -> f64 {
    (point[0] * point[0] + point[1] * point[1]).sqrt()
}

/// A push of given strength along `way`; two circles on one spot are pushed apart sideways.
fn push(way: Point, distance: f64, strength: f64) -> Point {
    if distance < 1e-12 {
        return [-strength, 0.0];
    }
    let scale = strength / distance;
    [way[0] * scale, way[1] * scale]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn measured(radii: &[f64], bore: f64, centres: &[Point]) -> (f64, Vec<Point>) {
        let mut energy = Energy::new(radii);
        energy.bore = bore;
        let mut slope = vec![[0.0; 2]; radii.len()];
        (energy.measure(centres, &mut slope), slope)
    }

    #[test]
    fn what_fits_has_no_energy() {
        let (value, slope) = measured(&[1.0, 1.0], 2.0, &[[-1.0, 0.0], [1.0, 0.0]]);
        assert_eq!((value, slope), (0.0, vec![[0.0; 2]; 2]));
    }

    #[test]
    fn overlap_and_protrusion_are_squared_and_summed() {
        // Apart 1.5 of 2.0: overlap 0.5. The second reaches 2.5 of 2.0: out by 0.5.
        let (value, _) = measured(&[1.0, 1.0], 2.0, &[[0.0, 0.0], [1.5, 0.0]]);
        assert!((value - 0.5).abs() < 1e-15);
    }

    #[test]
    fn the_slope_is_that_of_the_energy() {
        let radii = [1.0, 0.8, 0.6, 0.5];
        let centres = [[0.3, 0.1], [-0.9, 0.2], [0.2, -1.0], [0.9, 0.9]];
        let (_, slope) = measured(&radii, 1.5, &centres);
        let tiny = 1e-6;
        for (index, axis) in (0..4).flat_map(|index| [(index, 0), (index, 1)]) {
            let at = |step: f64| {
                let mut centres = centres;
                centres[index][axis] += step;
                measured(&radii, 1.5, &centres).0
            };
            let rise = (at(tiny) - at(-tiny)) / (2.0 * tiny);
            assert!((rise - slope[index][axis]).abs() < 1e-6, "{index} {axis}");
        }
    }

    #[test]
    fn circles_on_one_spot_are_pushed_apart() {
        let (value, slope) = measured(&[1.0, 1.0], 9.0, &[[0.0; 2]; 2]);
        assert_eq!(value, 4.0);
        assert!(slope[0][0] * slope[1][0] < 0.0);
    }

    #[test]
    fn a_circle_that_moved_far_meets_new_neighbours() {
        let mut energy = Energy::new(&[1.0, 1.0]);
        energy.bore = 9.0;
        let mut slope = [[0.0; 2]; 2];
        assert_eq!(energy.measure(&[[-3.0, 0.0], [3.0, 0.0]], &mut slope), 0.0);
        assert!(energy.measure(&[[2.0, 0.0], [3.0, 0.0]], &mut slope) > 0.9);
    }
}
