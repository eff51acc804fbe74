//! Rehearsals are logged as they were timed, never as they were worked out.

use crate::workbench::Workbench;

#[test]
fn a_new_rehearsal_has_no_time_until_it_is_entered_and_says_that_it_does_not_count() {
    let mut bench = Workbench::demo();
    bench.choose("Submission page");
    bench.button("Stage");
    let held = |bench: &Workbench| {
        let spec = bench.session().spec().expect("a drink");
        spec.stage.rehearsals.clone()
    };
    let before = held(&bench).len();
    assert!(!bench.says("does not count"));
    bench.far_button("Log a rehearsal");
    bench.run();
    let after = held(&bench);
    assert_eq!(after.len(), before + 1);
    let last = after.last().expect("it is there");
    assert_eq!(last.seconds, 0.0);
    assert!(last.serves > 0);
    assert!(bench.says("does not count"));
}
