//! Outputs follow the streams that they stand for.

use equipour::model::{Preparation, Process, Step};
use equipour::session::{follow_outputs, usual_steps};

#[test]
fn an_output_that_is_worked_on_further_stands_for_what_comes_of_it() {
    let step = |from: &str, to: &str| Step {
        from: vec![from.to_owned()],
        to: vec![to.to_owned()],
        ..usual_steps()
            .into_iter()
            .find(|step| step.does == Process::Rest)
            .expect("resting is usual")
    };
    let mut made = Preparation {
        name: "juice".to_owned(),
        outputs: [("juice".to_owned(), "juice-row".into())].into(),
        main: "juice".to_owned(),
        keeps_days: [("juice".to_owned(), 3.0)].into(),
        steps: vec![
            step("fruit", "juice"),
            step("juice", "rested"),
            step("rested", "cleared"),
        ],
        ..Preparation::default()
    };
    follow_outputs(&mut made);
    assert_eq!(made.outputs.keys().collect::<Vec<_>>(), ["cleared"]);
    assert_eq!(made.main, "cleared");
    assert_eq!(made.keeps_days.get("cleared"), Some(&3.0));
    let done = made.clone();
    follow_outputs(&mut made);
    assert_eq!(made, done);
}
