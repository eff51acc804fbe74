//! Probabilities of several tests at once.

/// Raises probabilities for their number, so that one that is small among many is not taken for more
/// than it is (Holm, Scand J Statist 1979;6:65): the smallest times the number of tests, the next
/// times one fewer, never falling, at most 1. Tests without a probability do not count.
pub(super) fn raised(probabilities: &[Option<f64>]) -> Vec<Option<f64>> {
    let tested = probabilities.iter().enumerate();
    let mut tested: Vec<(usize, f64)> = tested
        .filter_map(|(place, p)| Some((place, (*p)?)))
        .collect();
    tested.sort_by(|a, b| a.1.total_cmp(&b.1));
    let mut raised = vec![None; probabilities.len()];
    let mut least = 0.0_f64;
    for (before, (place, p)) in tested.iter().enumerate() {
        least = least.max((p * (tested.len() - before) as f64).min(1.0));
        raised[*place] = Some(least);
    }
    raised
}
