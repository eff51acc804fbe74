//! Ranks of values that may be tied.

/// Mid-ranks from 1: tied values share the mean of the places they take.
pub(super) fn mid_ranks(values: &[f64]) -> Vec<f64> {
    let rank = |value: &f64| {
        let below = values.iter().filter(|other| *other < value).count();
        let same = values.iter().filter(|other| *other == value).count();
        below as f64 + f64::midpoint(same as f64, 1.0)
    };
    values.iter().map(rank).collect()
}

/// Sizes of the groups of tied values, those of one included.
pub(super) fn tie_sizes(values: &[f64]) -> Vec<usize> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted.chunk_by(|a, b| a == b).map(<[f64]>::len).collect()
}
