//! Walks an arrangement downhill to the nearest place where the energy no longer falls.
//!
//! Limited-memory BFGS: Nocedal and Wright, "Numerical Optimization", 2nd edition, algorithms 7.4
//! and 7.5 (from memory). The buffers are kept between walks, so that a walk allocates nothing.

use super::energy::{Energy, Point};

/// Steps remembered to guess the curvature.
const MEMORY: usize = 6;

/// Every so many steps the walk asks whether it can still end low enough.
const PACE: usize = 4;

/// The most that all later steps are thought to gain, in gains of the last few.
const SLOWING: f64 = 1.5;

/// An energy this small is an arrangement that fits, to the eye of the search.
pub(super) const FITS: f64 = 1e-18;

/// When to stop walking.
#[derive(Clone, Copy, Debug)]
pub(super) struct Patience {
    /// Most steps of one walk.
    pub(super) steps: usize,
    /// Stop when the slope, squared, has fallen to this part of the energy.
    pub(super) flat: f64,
}

/// While searching: near the bottom is near enough to compare.
pub(super) const ROUGH: Patience = Patience {
    steps: 120,
    flat: 1e-3,
};

#[derive(Clone, Debug)]
struct Step {
    moved: Vec<Point>,
    turned: Vec<Point>,
    /// One over the product of the two.
    scale: f64,
}

/// The walker, with its buffers.
#[derive(Clone, Debug)]
pub(super) struct Descent {
    slope: Vec<Point>,
    trial: Vec<Point>,
    trial_slope: Vec<Point>,
    way: Vec<Point>,
    steps: Vec<Step>,
    known: usize,
    next: usize,
}

impl Descent {
    pub(super) fn new(count: usize) -> Self {
        let zero = || vec![[0.0; 2]; count];
        let step = || Step {
            moved: zero(),
            turned: zero(),
            scale: 0.0,
        };
        Self {
            slope: zero(),
            trial: zero(),
            trial_slope: zero(),
            way: zero(),
            steps: (0..MEMORY).map(|_| step()).collect(),
            known: 0,
            next: 0,
        }
    }

    /// Moves `centres` downhill and gives the energy where they came to rest.
    ///
    /// A walk that is not going to end below `beat` is given up on the way.
    pub(super) fn walk(
        &mut self,
        energy: &mut Energy,
        centres: &mut [Point],
        patience: Patience,
        beat: f64,
    ) -> f64 {
        energy.forget();
        self.known = 0;
        let mut value = energy.measure(centres, &mut self.slope);
        let mut before = value;
        for step in 1..=patience.steps {
            let steep = dot(&self.slope, &self.slope);
            if value <= FITS * 1e-6 || steep <= patience.flat * value {
                break;
            }
            self.choose_way();
            let Some(lower) = self.step(energy, centres, value) else {
                break;
            };
            value = lower;
            if step % PACE == 0 {
                if value - SLOWING * (before - value) > beat {
                    break;
                }
                before = value;
            }
        }
        value
    }

    /// The way down: the slope, corrected by the remembered steps.
    fn choose_way(&mut self) {
        self.way.copy_from_slice(&self.slope);
        let mut weights = [0.0; MEMORY];
        for (back, weight) in weights.iter_mut().enumerate().take(self.known) {
            let step = &self.steps[(self.next + MEMORY - 1 - back) % MEMORY];
            *weight = dot(&step.moved, &self.way) * step.scale;
            add(&mut self.way, &step.turned, -*weight);
        }
        let scale = self.first_scale();
        self.way
            .as_flattened_mut()
            .iter_mut()
            .for_each(|part| *part *= scale);
        for back in (0..self.known).rev() {
            let step = &self.steps[(self.next + MEMORY - 1 - back) % MEMORY];
            let weight = weights[back] - dot(&step.turned, &self.way) * step.scale;
            add(&mut self.way, &step.moved, weight);
        }
    }

    /// Curvature along the last step; at first that of a circle held by about four others.
    fn first_scale(&self) -> f64 {
        if self.known == 0 {
            return 0.15;
        }
        let last = &self.steps[(self.next + MEMORY - 1) % MEMORY];
        1.0 / (last.scale * dot(&last.turned, &last.turned))
    }

    /// Takes a step that lowers the energy enough; nothing when there is none to take.
    fn step(&mut self, energy: &mut Energy, centres: &mut [Point], value: f64) -> Option<f64> {
        let mut fall = -dot(&self.slope, &self.way);
        if fall >= 0.0 {
            self.known = 0;
            self.choose_way();
            fall = -dot(&self.slope, &self.way);
        }
        let mut size = 1.0;
        for _ in 0..12 {
            self.trial.copy_from_slice(centres);
            add(&mut self.trial, &self.way, -size);
            let lower = energy.measure(&self.trial, &mut self.trial_slope);
            if lower <= value + 1e-4 * size * fall {
                self.remember(centres);
                centres.copy_from_slice(&self.trial);
                std::mem::swap(&mut self.slope, &mut self.trial_slope);
                return Some(lower);
            }
            let guess = -0.5 * fall * size * size / (lower - value - fall * size);
            size = guess.clamp(0.1 * size, 0.5 * size);
        }
        None
    }

    fn remember(&mut self, centres: &[Point]) {
        let step = &mut self.steps[self.next];
        subtract(&mut step.moved, &self.trial, centres);
        subtract(&mut step.turned, &self.trial_slope, &self.slope);
        let product = dot(&step.moved, &step.turned);
        if product > 1e-12 * dot(&step.turned, &step.turned) && product > 1e-300 {
            step.scale = 1.0 / product;
            self.next = (self.next + 1) % MEMORY;
            self.known = (self.known + 1).min(MEMORY);
        }
    }
}

/// Summed in four rows: one long row would make every addition wait for the one before.
fn dot(one: &[Point], other: &[Point]) -> f64 {
    let (pairs, others) = (one.chunks_exact(2), other.chunks_exact(2));
    let (rest, other_rest) = (pairs.remainder(), others.remainder());
    let mut sums = [0.0; 4];
    for (a, b) in pairs.zip(others) {
        sums[0] += a[0][0] * b[0][0];
        sums[1] += a[0][1] * b[0][1];
        sums[2] += a[1][0] * b[1][0];
        sums[3] += a[1][1] * b[1][1];
    }
    for (a, b) in rest.iter().zip(other_rest) {
        sums[0] += a[0] * b[0];
        sums[1] += a[1] * b[1];
    }
    (sums[0] + sums[2]) + (sums[1] + sums[3])
}

fn add(to: &mut [Point], what: &[Point], times: f64) {
    for (to, what) in to.iter_mut().zip(what) {
        to[0] += times * what[0];
        to[1] += times * what[1];
    }
}

fn subtract(into: &mut [Point], one: &[Point], other: &[Point]) {
    for ((into, one), other) in into.iter_mut().zip(one).zip(other) {
        *into = [one[0] - other[0], one[1] - other[1]];
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_overlapping_circles_come_apart() {
        let mut energy = Energy::new(&[1.0, 0.5]);
        energy.bore = 1.6;
        let mut centres = [[0.1, 0.2], [0.3, -0.1]];
        let value = Descent::new(2).walk(&mut energy, &mut centres, ROUGH, f64::INFINITY);
        assert!(value < 1e-12, "{value}");
    }

    #[test]
    fn a_walk_never_ends_higher() {
        let radii = [1.0, 0.9, 0.8, 0.7, 0.6];
        let mut energy = Energy::new(&radii);
        energy.bore = 1.5;
        let mut centres = [
            [0.0, 0.1],
            [0.2, 0.0],
            [-0.1, 0.3],
            [0.5, 0.5],
            [-0.4, -0.2],
        ];
        let start = energy.measure(&centres, &mut [[0.0; 2]; 5]);
        let end = Descent::new(5).walk(&mut energy, &mut centres, ROUGH, f64::INFINITY);
        let again = energy.measure(&centres, &mut [[0.0; 2]; 5]);
        assert!(
            end < start && (again - end).abs() < 1e-12,
            "{start} {end} {again}"
        );
    }

    #[test]
    fn a_hopeless_walk_is_given_up() {
        let mut energy = Energy::new(&[1.0; 12]);
        energy.bore = 3.0;
        let mut centres: Vec<Point> = (0..12)
            .map(|index| [f64::from(index) * 0.1, f64::from(index * index) * 0.01])
            .collect();
        let mut patient = centres.clone();
        let mut descent = Descent::new(12);
        descent.walk(&mut energy, &mut patient, ROUGH, f64::INFINITY);
        let long = energy.checks;
        energy.checks = 0;
        descent.walk(&mut energy, &mut centres, ROUGH, 0.0);
        assert!(energy.checks < long, "{} of {long}", energy.checks);
    }

    #[test]
    fn products_are_summed_to_the_last() {
        let row = |count: usize| vec![[1.0, 2.0]; count];
        for count in 0..6 {
            assert_eq!(dot(&row(count), &row(count)), 5.0 * count as f64);
        }
    }
}
