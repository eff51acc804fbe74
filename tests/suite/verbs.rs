//! The headless verbs, as a script meets them.

use equipour::cli::{Verb, parse};
use equipour::model::SpecId;
use equipour::session::Session;
use equipour::store::{Builtin, DEMO, read_text};
use serde_json::Value;
use std::path::PathBuf;
use std::process::{Command, Output};
use std::sync::Arc;

pub(crate) fn demo() -> PathBuf {
    PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/sample_data/demo.ron"))
}

/// Runs the program with folders of its own and without any display.
pub(crate) fn run(words: &[&str]) -> Output {
    let home = tempfile::tempdir().expect("a folder");
    Command::new(env!("CARGO_BIN_EXE_equipour"))
        .args(words)
        .env("EQUIPOUR_HOME", home.path())
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .env_remove("WAYLAND_SOCKET")
        .output()
        .expect("the program starts")
}

/// What the window opens on.
fn window() -> Session {
    let builtin = Builtin::load().expect("the tables are sound");
    let document = read_text(DEMO).expect("the demo is sound").document;
    let mut session = Session::new(Arc::new(builtin), document);
    session.refresh();
    session
}

pub(crate) fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).expect("it is text")
}

pub(crate) fn json(words: &[&str]) -> Value {
    let output = run(words);
    assert!(output.status.success(), "{}", text(&output.stderr));
    serde_json::from_slice(&output.stdout).expect("it is JSON")
}

#[test]
fn figures_have_documented_keys_in_a_fixed_order() {
    let path = demo();
    let found = json(&["figures", &path.to_string_lossy(), "--json"]);
    let keys: Vec<&str> = found
        .as_object()
        .expect("an object")
        .keys()
        .map(String::as_str)
        .collect();
    let expected = "verb document spec trial pours uncounted point sugar_g_per_l acid_g_per_l sugar_to_acid \
                    body_g_per_l gum_g_per_l salt_g_per_l co2_g_per_l chilled_ml chilled_pct_vol dilution_fraction \
                    dilution_outside_tested_range melt_g served_ml served_g alcohol_g coldest_c served_c spared_g in_blender ph uncertainty cost \
                    cost_currency pours_without_price allergens target distance_steps nearest_classics notices";
    assert_eq!(keys, expected.split_whitespace().collect::<Vec<_>>());
    let readme = include_str!("../../README.md");
    for key in keys {
        assert!(
            readme.contains(&format!("`{key}")),
            "the README lacks {key}"
        );
    }
}

#[test]
fn a_classic_of_the_demo_comes_out_of_the_verb_as_out_of_the_model() {
    let path = demo();
    let words = [
        "figures",
        &path.to_string_lossy(),
        "--trial",
        "As published",
        "--json",
    ];
    let found = json(&words);
    // reference/classics_expected.csv, bee's knees: 13.1764 % vol, 50.5386 and 7.7883 g/L.
    let near = |key: &str, expected: f64| {
        let value = found["point"][key].as_f64().expect("a number");
        assert!((value / expected - 1.0).abs() < 1.0e-3, "{key}: {value}");
    };
    near("strength_pct_vol", 13.1764);
    near("sweet_g_per_l", 50.5386);
    near("sour_g_per_l", 7.7883);
}

#[test]
fn rebalance_holds_what_the_drink_holds_unless_told_otherwise() {
    let path = demo();
    let path = path.to_string_lossy();
    let session = window();
    let spec = session.spec().expect("a drink");
    let own = json(&["rebalance", &path, "--json"]);
    assert_eq!(own["held"], spec.balancing.scale_rule.name());
    let free = json(&["rebalance", &path, "--json", "--hold", "nothing"]);
    assert_eq!(free["held"], "nothing");
    let held = json(&["rebalance", &path, "--json", "--hold", "poured"]);
    assert_eq!(held["held"], "poured total");
    let best = &held["proposals"][0];
    let change: f64 = best["changes"]
        .as_array()
        .expect("changes")
        .iter()
        .map(|change| change["to"].as_f64().expect("ml") - change["from"].as_f64().expect("ml"))
        .sum();
    // Half the largest unlocked notch of 2.5 ml.
    assert!(change.abs() <= 1.25 + 1.0e-9, "{change}");
    let (now, then) = (&held["distance_now_steps"], &best["distance_steps"]);
    assert!(then.as_f64() < now.as_f64(), "{then} {now}");
}

#[test]
fn verbs_say_of_every_drink_what_the_window_says() {
    let path = demo();
    let path = path.to_string_lossy();
    let mut session = window();
    let specs: Vec<SpecId> = session
        .document()
        .specs
        .iter()
        .map(|spec| spec.id)
        .collect();
    assert!(specs.len() > 1);
    for spec in specs {
        session.select_spec(spec);
        session.refresh();
        let (number, trial) = (spec.0.to_string(), session.trial().expect("a trial").id);
        let trial = trial.0.to_string();
        let ask = |verb| json(&[verb, &path, "--spec", &number, "--trial", &trial, "--json"]);
        let derived = session.derived().expect("derived");
        let figures = derived.figures.as_ref().expect("it is served");
        let found = ask("figures");
        let near = |value: &Value, expected: f64, what: &str| {
            let value = value.as_f64().expect(what);
            // Half of the last of four decimals that are written.
            let slack = 0.5e-4 + 1.0e-9;
            assert!(
                (value - expected).abs() <= slack,
                "{number} {what}: {value} {expected}"
            );
        };
        near(&found["served_ml"], figures.served_ml, "served");
        near(&found["dilution_fraction"], figures.dilution, "dilution");
        let point = &found["point"];
        near(
            &point["strength_pct_vol"],
            figures.point.strength_pct_vol,
            "strength",
        );
        let Ok(answer) = &derived.answer else {
            continue;
        };
        let found = ask("rebalance");
        let proposals = found["proposals"].as_array().expect("proposals");
        assert_eq!(proposals.len(), answer.proposals.len(), "{number}");
        for (said, shown) in proposals.iter().zip(&answer.proposals) {
            near(&said["distance_steps"], shown.distance, "distance");
            let changes = said["changes"].as_array().expect("changes");
            assert_eq!(changes.len(), shown.changes.len(), "{number}");
            for (said, shown) in changes.iter().zip(&shown.changes) {
                assert_eq!(said["pour"], shown.pour);
                near(&said["from"], shown.from, "from");
                near(&said["to"], shown.to, "to");
            }
        }
    }
}

#[test]
fn rebalance_names_remedies_where_the_target_is_out_of_reach() {
    let folder = tempfile::tempdir().expect("a folder");
    let whole = std::fs::read_to_string(demo()).expect("the demo");
    let (before, pour) = whole
        .rsplit_once("Ingredient(\"quince-syrup\")")
        .expect("the last trial pours it");
    let locked =
        pour.replacen("Ml(17.5)", "Ml(0.0)", 1)
            .replacen("locked: false", "locked: true", 1);
    let path = folder.path().join("dry.ron");
    let text_of_dry = format!("{before}Ingredient(\"quince-syrup\"){locked}");
    std::fs::write(&path, text_of_dry).expect("it is written");
    let found = json(&["rebalance", &path.to_string_lossy(), "--json"]);
    let verdict = &found["verdict"];
    assert_eq!(verdict["reachable"], false);
    let remedies = verdict["remedies"].as_array().expect("a list");
    assert_eq!(remedies[0]["kind"], "unlock");
    assert_eq!(remedies[0]["text"], "Unlock quince syrup");
    let away = |value: &Value| value.as_f64().expect("steps");
    for remedy in remedies {
        let keys: Vec<&String> = remedy.as_object().expect("an object").keys().collect();
        assert_eq!(keys, ["kind", "text", "distance_steps"]);
        assert!(away(&remedy["distance_steps"]) < away(&found["distance_now_steps"]));
    }
    let demo = demo();
    let reached = json(&["rebalance", &demo.to_string_lossy(), "--json"]);
    assert_eq!(reached["verdict"]["remedies"], serde_json::json!([]));
}

#[test]
fn proposals_carry_their_proof_their_limits_and_the_number_of_pours() {
    let path = demo();
    let found = json(&["rebalance", &path.to_string_lossy(), "--json"]);
    let proposals = found["proposals"].as_array().expect("proposals");
    assert!(proposals.len() > 1);
    let readme = include_str!("../../README.md");
    for proposal in proposals {
        let keys = proposal.as_object().expect("an object").keys();
        for key in keys {
            assert!(
                readme.contains(&format!("`{key}")),
                "the README lacks {key}"
            );
        }
        let changes = proposal["changes"].as_array().expect("changes");
        assert_eq!(proposal["pours_changed"], changes.len());
        let kinds = proposal["kinds"].as_array().expect("kinds");
        let evidence = proposal["evidence"].as_array().expect("evidence");
        let of: Vec<&Value> = evidence.iter().map(|one| &one["kind"]).collect();
        assert_eq!(
            of,
            kinds.iter().collect::<Vec<_>>(),
            "one proof for each kind"
        );
        for one in evidence {
            assert!(one["nodes"].as_u64().expect("a count") > 0);
            let complete = one["proof"] == "the proof is complete";
            let gap = one["gap"].as_f64();
            assert!(!complete || gap == Some(0.0), "{one}");
        }
        for limit in proposal["limits"].as_array().expect("limits") {
            assert!(limit["limit"].is_string());
            assert!(limit["gain_per_unit_steps"].as_f64() >= Some(0.0));
        }
    }
}

#[test]
fn the_plain_text_says_what_is_proved_of_a_proposal() {
    let path = demo();
    let output = run(&["rebalance", &path.to_string_lossy()]);
    let said = text(&output.stdout);
    assert!(said.contains("proved best on your notches"), "{said}");
    assert!(said.contains(" notches in "), "{said}");
}

#[test]
fn the_plain_text_says_what_the_json_says() {
    let path = demo();
    let output = run(&["figures", &path.to_string_lossy()]);
    let said = text(&output.stdout);
    for word in [
        "As served",
        "Nearest classics",
        "Proposals",
        "g/L",
        "% vol",
        "from ice",
    ] {
        assert!(said.contains(word), "{word} is missing:\n{said}");
    }
}

#[test]
fn without_a_display_the_demo_comes_as_text_and_the_exit_code_is_0() {
    let output = run(&[]);
    assert_eq!(output.status.code(), Some(0));
    let said = text(&output.stdout);
    let first = said.lines().next().expect("a line");
    assert!(first.contains("No display"), "{first}");
    for word in ["Salt Meadow", "Nearest classics", "Proposals"] {
        assert!(said.contains(word), "{word} is missing");
    }
}

#[test]
fn a_display_that_does_not_answer_is_no_display() {
    let home = tempfile::tempdir().expect("a folder");
    let output = Command::new(env!("CARGO_BIN_EXE_equipour"))
        .env("EQUIPOUR_HOME", home.path())
        .env("DISPLAY", ":nonexistent")
        .env_remove("WAYLAND_DISPLAY")
        .env_remove("WAYLAND_SOCKET")
        .output()
        .expect("the program starts");
    let said = text(&output.stdout);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    assert!(said.starts_with("No display"), "{said}");
    assert!(!said.lines().next().expect("a line").contains(".rs"));
}

#[test]
fn wrong_input_says_what_and_where_with_exit_code_1() {
    let folder = tempfile::tempdir().expect("a folder");
    let broken = folder.path().join("broken.ron");
    std::fs::write(
        &broken,
        "(format: 1, writer: \"x\",\n document: (title: 7))",
    )
    .expect("written");
    let path = demo();
    let path = path.to_string_lossy();
    let cases: [(&[&str], &str); 5] = [
        (&["figures", "/no/such/file.ron"], "cannot read"),
        (
            &["figures", &folder.path().to_string_lossy()],
            "is not a file",
        ),
        (&["figures", &broken.to_string_lossy()], "line 2"),
        (
            &["figures", &path, "--spec", "Nobody"],
            "no drink \"Nobody\"; it has Harbour Fog, Kitchen Garden, Salt Meadow",
        ),
        (&["rebalance", &path, "--trial", "99"], "no trial \"99\""),
    ];
    for (words, reason) in cases {
        let output = run(words);
        let said = text(&output.stderr);
        assert_eq!(output.status.code(), Some(1), "{words:?}: {said}");
        assert!(said.contains(reason), "{words:?}: {said}");
        assert!(output.stdout.is_empty());
    }
}

#[test]
fn a_wrong_command_line_has_exit_code_2_and_shows_how() {
    for words in [
        &["figures"][..],
        &["--json"],
        &["rebalance", "a.ron", "--hold", "everything"],
        &["figures", "a.ron", "--hold", "base"],
        &["figures", "a.ron", "b.ron"],
        &["--frobnicate"],
    ] {
        let output = run(words);
        assert_eq!(output.status.code(), Some(2), "{words:?}");
        assert!(
            text(&output.stderr).contains("equipour figures FILE"),
            "{words:?}"
        );
    }
}

#[test]
fn a_document_named_like_a_verb_can_still_be_opened() {
    let asked = parse(["figures", "figures"].map(Into::into)).expect("it makes sense");
    assert_eq!(
        (asked.verb, asked.file),
        (Verb::Figures, Some("figures".into()))
    );
}
