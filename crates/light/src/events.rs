//! When something that changes slowly passes zero.

use crate::Moment;

/// A moment at which something passes zero.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crossing {
    /// The moment, to a tenth of a second.
    pub at: Moment,
    /// True if it becomes positive there.
    pub rising: bool,
}

/// Looks are this far apart. Sun and moon move by about a degree and a quarter in it.
const STEP_S: f64 = 300.0;

/// All zeros of a continuous function between two moments, in order.
///
/// Between looks the function may touch and leave zero once; so short a visit is found by looking for the extreme.
pub fn crossings(from: Moment, until: Moment, value: impl Fn(Moment) -> f64) -> Vec<Crossing> {
    let steps = (until.since(from) / STEP_S).ceil().max(1.0) as usize;
    let moment = |k: usize| from.later(until.since(from) * k as f64 / steps as f64);
    let looks: Vec<(Moment, f64)> = (0..=steps).map(|k| (moment(k), value(moment(k)))).collect();
    let mut found = Vec::new();
    for k in 0..steps {
        let (left, right) = (looks[k], looks[k + 1]);
        if (left.1 < 0.0) != (right.1 < 0.0) {
            found.push(bisected(left, right.0, &value));
        } else if let Some(extreme) = hidden_extreme(&looks, k, &value) {
            found.push(bisected(left, extreme.0, &value));
            found.push(bisected(extreme, right.0, &value));
        }
    }
    found
}

fn bisected(left: (Moment, f64), right: Moment, value: &impl Fn(Moment) -> f64) -> Crossing {
    let (mut low, mut high) = (left.0, right);
    while high.since(low) > 0.1 {
        let middle = low.later(high.since(low) / 2.0);
        if (value(middle) < 0.0) == (left.1 < 0.0) {
            low = middle;
        } else {
            high = middle;
        }
    }
    Crossing {
        at: low.later(high.since(low) / 2.0),
        rising: left.1 < 0.0,
    }
}

/// A visit to the other side of zero between two looks on the same side.
fn hidden_extreme(
    looks: &[(Moment, f64)],
    k: usize,
    value: &impl Fn(Moment) -> f64,
) -> Option<(Moment, f64)> {
    let distance = |look: (Moment, f64)| if looks[k].1 < 0.0 { -look.1 } else { look.1 };
    let (left, right) = (looks[k], looks[k + 1]);
    // Only where the function turns can it come nearer to zero than at both looks.
    let nearer_before = k > 0 && distance(looks[k - 1]) < distance(left);
    let nearer_after = k + 2 < looks.len() && distance(looks[k + 2]) < distance(right);
    if (nearer_before && distance(left) < distance(right))
        || (nearer_after && distance(right) < distance(left))
    {
        return None;
    }
    let (mut low, mut high) = (left.0, right.0);
    while high.since(low) > 0.1 {
        let third = high.since(low) / 3.0;
        let (a, b) = (low.later(third), high.later(-third));
        let (at_a, at_b) = ((a, value(a)), (b, value(b)));
        for look in [at_a, at_b] {
            if distance(look) < 0.0 {
                return Some(look);
            }
        }
        if distance(at_a) < distance(at_b) {
            high = b;
        } else {
            low = a;
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    fn start() -> Moment {
        Moment::utc(2026, 1, 1, 0, 0, 0.0).expect("a date")
    }

    fn found(value: impl Fn(f64) -> f64, hours: f64) -> Vec<(f64, bool)> {
        let from = start();
        crossings(from, from.later(hours * 3600.0), |moment| {
            value(moment.since(from))
        })
        .iter()
        .map(|crossing| (crossing.at.since(from), crossing.rising))
        .collect()
    }

    #[test]
    fn zeros_of_a_wave() {
        let wave = |seconds: f64| (seconds / 3600.0 * std::f64::consts::PI / 6.0).cos();
        let zeros = found(wave, 12.0);
        assert_eq!(zeros.len(), 2);
        for ((at, rising), (expected, up)) in zeros.iter().zip([(3.0, false), (9.0, true)]) {
            assert!((at - expected * 3600.0).abs() < 0.2, "{at}");
            assert_eq!(*rising, up);
        }
    }

    #[test]
    fn a_short_visit_between_two_looks_is_found() {
        for middle in [4000.0, 4100.0, 4150.0, 4210.0] {
            let hill = |seconds: f64| 1e-6 * (60.0f64.powi(2) - (seconds - middle).powi(2));
            let zeros = found(hill, 2.0);
            assert_eq!(zeros.len(), 2, "{middle}");
            assert!((zeros[0].0 - (middle - 60.0)).abs() < 0.2 && zeros[0].1);
            assert!((zeros[1].0 - (middle + 60.0)).abs() < 0.2 && !zeros[1].1);
        }
    }

    #[test]
    fn what_stays_on_one_side_has_none() {
        assert!(found(|_| 1.0, 24.0).is_empty());
        assert!(found(|seconds| -1.0 - (seconds - 5000.0).powi(2), 24.0).is_empty());
    }
}
