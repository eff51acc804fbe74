//! What the house-made page says of a preparation.

use crate::house_sample::{MILK, house, id};
use equipour::session::house_view;

#[test]
fn labels_bear_the_day_that_is_asked_for_even_when_another_was_asked_for_before() {
    let session = house();
    let view = house_view(session.document(), &id(MILK)).expect("it is there");
    let label = |day: &str| view.paper(day).labels[0].1.clone();
    let (first, next) = (label("2031-03-04"), label("2031-03-05"));
    assert!(first.contains("2031-03-04"), "{first}");
    assert!(next.contains("2031-03-05"), "{next}");
    assert_eq!(label("2031-03-04"), first);
}
