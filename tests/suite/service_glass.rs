//! Glasses and wash lines, against closed forms and sums of thin slices.

use equipour::model::{Glass, GlassForm, GlassShape};
use equipour::physics::glass::{Inside, Vessel};
use equipour::service::stands;
use proptest::prelude::*;
use std::f64::consts::PI;

/// Volume up to a height as a sum of thin slices of a glass of this radius at each height, ml.
fn sliced(radius: impl Fn(f64) -> f64, height: f64) -> f64 {
    const SLICES: usize = 20_000;
    let thick = height / SLICES as f64;
    let middle = |slice: usize| (slice as f64 + 0.5) * thick;
    let area = |slice: usize| PI * radius(middle(slice)).powi(2);
    (0..SLICES).map(area).sum::<f64>() * thick / 1000.0
}

#[test]
fn upright_walls_are_volume_over_area() {
    let vessel = Vessel::new(Inside::Straight { rim: 40.0 }, 300.0).expect("it is a glass");
    assert!((vessel.depth_mm() - 300_000.0 / (PI * 1600.0)).abs() < 1e-9);
    assert!((vessel.below_rim_mm(150.0) - 0.5 * vessel.depth_mm()).abs() < 1e-9);
}

#[test]
fn half_a_cone_stands_at_the_cube_root_of_a_half() {
    let vessel = Vessel::new(Inside::Cone { rim: 50.0 }, 200.0).expect("it is a glass");
    assert!((vessel.height_mm(100.0) / vessel.depth_mm() - 0.5_f64.cbrt()).abs() < 1e-12);
}

#[test]
fn a_hemisphere_is_two_thirds_of_pi_and_half_full_where_the_cubic_says() {
    let radius = 45.0_f64;
    let ml = 2.0 / 3.0 * PI * radius.powi(3) / 1000.0;
    let vessel = Vessel::new(Inside::Bowl { rim: radius }, ml).expect("it is a glass");
    assert!(
        (vessel.depth_mm() - radius).abs() < 1e-6,
        "{}",
        vessel.depth_mm()
    );
    // h²(3 − h) = 1 for half of a hemisphere of radius 1: h = 0.6527.
    let height = vessel.height_mm(0.5 * ml) / radius;
    assert!((height * height * (3.0 - height) - 1.0).abs() < 1e-9);
    assert!((height - 0.652_703_6).abs() < 1e-6, "{height}");
}

#[test]
fn what_is_no_glass_is_none() {
    for (rim, ml) in [
        (0.0, 100.0),
        (40.0, 0.0),
        (f64::NAN, 100.0),
        (40.0, f64::INFINITY),
    ] {
        assert!(
            Vessel::new(Inside::Bowl { rim }, ml).is_none(),
            "{rim} {ml}"
        );
    }
    assert!(
        Vessel::new(
            Inside::Tapered {
                rim: 40.0,
                floor: -1.0
            },
            100.0
        )
        .is_none()
    );
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn slices_up_to_the_height_hold_the_volume(
        rim in 20.0..60.0_f64,
        floor in 0.2..1.2_f64,
        brim in 60.0..600.0_f64,
        share in 0.02..1.0_f64,
    ) {
        let ml = share * brim;
        let floor = floor * rim;
        let tapered = Vessel::new(Inside::Tapered { rim, floor }, brim).expect("a glass");
        let depth = tapered.depth_mm();
        let found = sliced(|at| floor + (rim - floor) * at / depth, tapered.height_mm(ml));
        prop_assert!((found - ml).abs() < 1e-4 * brim, "tapered {found} {ml}");
        let bowl = Vessel::new(Inside::Bowl { rim }, brim).expect("a glass");
        let depth = bowl.depth_mm();
        let sphere = (rim * rim + depth * depth) / (2.0 * depth);
        let radius = |at: f64| (sphere * sphere - (sphere - at).powi(2)).max(0.0).sqrt();
        let found = sliced(radius, bowl.height_mm(ml));
        prop_assert!((found - ml).abs() < 1e-4 * brim, "bowl {found} {ml}");
        prop_assert!((sliced(radius, depth) - brim).abs() < 1e-4 * brim);
    }

    #[test]
    fn more_never_stands_lower(rim in 20.0..60.0_f64, one in 0.0..300.0_f64, more in 0.0..300.0_f64) {
        for inside in [Inside::Straight { rim }, Inside::Cone { rim }, Inside::Bowl { rim }, Inside::Tapered { rim, floor: 0.6 * rim }] {
            let vessel = Vessel::new(inside, 250.0).expect("a glass");
            let (low, high) = (vessel.height_mm(one), vessel.height_mm(one + more));
            prop_assert!(low <= high + 1e-9 && (0.0..=vessel.depth_mm()).contains(&low));
        }
    }
}

fn glass(ice_share: f64, foam_ml: f64, left_behind_ml: f64) -> Glass {
    Glass {
        capacity_ml: 300.0,
        ice_share,
        form: GlassForm {
            shape: GlassShape::Straight,
            rim_mm: 80.0,
            foam_ml,
            left_behind_ml,
            ..GlassForm::default()
        },
        ..Glass::default()
    }
}

#[test]
fn floating_ice_pushes_up_what_it_weighs() {
    // 120 ml of ice weigh 110 g; 200 ml of a liquid of 1.1 g/ml float them: 100 ml go up.
    let line = stands(&glass(0.4, 0.0, 0.0), 200.0, 1.100_04);
    assert!(
        (line.displaced_ml - 100.0).abs() < 1e-6,
        "{}",
        line.displaced_ml
    );
    let area = PI * 1.6;
    assert!((line.below_rim_mm.expect("known") - (300.0 - 300.0) / area).abs() < 1e-6);
    // 60 ml do not: the ice stands on the floor and takes four tenths of the room up to the surface.
    let shallow = stands(&glass(0.4, 0.0, 0.0), 60.0, 1.0);
    assert!((shallow.displaced_ml - 40.0).abs() < 1e-9);
    assert!((shallow.below_rim_mm.expect("known") - 200.0 / area).abs() < 1e-9);
}

#[test]
fn foam_raises_the_wash_line_and_what_stays_behind_lowers_it() {
    let area = PI * 1.6;
    let line = stands(&glass(0.0, 20.0, 10.0), 130.0, 1.0);
    assert_eq!((line.liquid_ml, line.overflow_ml), (120.0, 0.0));
    assert!((line.liquid_below_rim_mm.expect("known") - 180.0 / area).abs() < 1e-9);
    assert!((line.below_rim_mm.expect("known") - 160.0 / area).abs() < 1e-9);
}

#[test]
fn what_runs_over_is_told_in_ml_even_without_a_shape() {
    let mut over = glass(0.0, 15.0, 0.0);
    over.form.shape = GlassShape::Unknown;
    let line = stands(&over, 297.0, 1.0);
    assert!((line.overflow_ml - 12.0).abs() < 1e-9);
    assert_eq!(line.words(), "runs over by 12 ml");
    // Nothing runs over by what would read as 0 ml.
    let line = stands(&over, 285.4, 1.0);
    assert_eq!(line.overflow_ml, 0.0);
    assert!(!line.words().contains("runs over"), "{}", line.words());
    let line = stands(&over, 285.6, 1.0);
    assert_eq!(line.words(), "runs over by 1 ml");
    let fits = stands(&over, 100.0, 1.0);
    assert!(fits.below_rim_mm.is_none() && fits.words().starts_with("no wash line"));
}
