//! Pages as pictures: the size asked for, and the same as another program makes of the PDF.

use crate::sheet_kit::{chart, laid, poppler};
use equipour::sheet::{Ink, PictureError, chart_png, paint, pdf, png};
use image::GrayImage;

fn grey(png: &[u8]) -> GrayImage {
    image::load_from_memory(png).expect("a picture").to_luma8()
}

/// Mean difference of two pictures, shares of white.
fn difference(one: &GrayImage, other: &GrayImage) -> f64 {
    let pairs = one.as_raw().iter().zip(other.as_raw());
    let sum: f64 = pairs.map(|(a, b)| f64::from(a.abs_diff(*b))).sum();
    sum / 255.0 / one.as_raw().len() as f64
}

#[test]
fn our_picture_and_that_of_another_program_from_the_pdf_are_the_same() {
    let laid = laid();
    let folder = tempfile::tempdir().expect("a folder");
    let bytes = pdf(&laid).expect("it is accessible");
    std::fs::write(folder.path().join("sheet.pdf"), bytes).expect("written");
    let arguments = ["-r", "144", "-png", "-singlefile", "sheet.pdf", "theirs"];
    if poppler("pdftoppm", &arguments, folder.path()).is_none() {
        return;
    }
    let theirs = std::fs::read(folder.path().join("theirs.png")).expect("a picture");
    let (ours, theirs) = (
        grey(&png(&laid.pages[0], 144.0).expect("small")),
        grey(&theirs),
    );
    let apart = ours.dimensions().0.abs_diff(theirs.dimensions().0);
    assert!(apart <= 1 && ours.dimensions().1.abs_diff(theirs.dimensions().1) <= 1);
    let (width, height) = (
        ours.width().min(theirs.width()),
        ours.height().min(theirs.height()),
    );
    let cut =
        |picture: &GrayImage| image::imageops::crop_imm(picture, 0, 0, width, height).to_image();
    let (ours, theirs) = (cut(&ours), cut(&theirs));
    let same = difference(&ours, &theirs);
    // Only the smoothing of edges differs. A millimetre to the side is another picture.
    let shifted = image::imageops::crop_imm(&ours, 6, 0, width - 6, height).to_image();
    let kept = image::imageops::crop_imm(&theirs, 0, 0, width - 6, height).to_image();
    let moved = difference(&shifted, &kept);
    assert!(same < 0.008, "{same}");
    assert!(moved > 4.0 * same, "{moved} {same}");
}

#[test]
fn a_picture_has_the_size_asked_for_and_is_opaque() {
    let laid = laid();
    let painted = paint(&laid.pages[0], 4.0).expect("small");
    assert_eq!((painted.width, painted.height), (840, 1188));
    assert_eq!(painted.rgba.len(), 840 * 1188 * 4);
    let mut opaque = painted.rgba.iter().skip(3).step_by(4);
    assert!(opaque.all(|opacity| *opacity == 255));
    let inked = painted
        .rgba
        .chunks(4)
        .filter(|point| point[0] < 128)
        .count();
    assert!(inked > 2_000, "{inked}");
    let file = grey(&png(&laid.pages[0], 25.4 * 4.0).expect("small"));
    assert_eq!(file.dimensions(), (840, 1188));
}

#[test]
fn a_picture_that_is_too_large_or_has_no_size_is_refused() {
    let page = &laid().pages[0];
    for points_per_mm in [50.0, 1.0e9, 0.0, -1.0, f64::NAN, f64::INFINITY] {
        let refused = paint(page, points_per_mm).expect_err("it is refused");
        assert!(matches!(refused, PictureError::Size { .. }), "{refused}");
    }
    let said = png(page, 2400.0).expect_err("it is refused").to_string();
    assert!(said.contains("at most 100 million"), "{said}");
    assert!(chart_png(&chart(), 20_000, 20_000).is_err());
    assert!(chart_png(&chart(), 0, 100).is_err());
}

#[test]
fn a_chart_fills_a_picture_of_any_size() {
    for (width, height) in [(1200, 750), (300, 300), (1, 1), (2000, 200)] {
        let picture = grey(&chart_png(&chart(), width, height).expect("small"));
        assert_eq!(picture.dimensions(), (width, height));
    }
}

/// Contrast of two inks by the relative luminance of WCAG 2.2.
fn contrast(one: Ink, other: Ink) -> f64 {
    let linear = |value: u8| {
        let share = f64::from(value) / 255.0;
        if share <= 0.04045 {
            share / 12.92
        } else {
            ((share + 0.055) / 1.055).powf(2.4)
        }
    };
    let light = |ink: Ink| {
        let [r, g, b] = ink.rgb().map(linear);
        0.2126 * r + 0.7152 * g + 0.0722 * b + 0.05
    };
    let (one, other) = (light(one), light(other));
    one.max(other) / one.min(other)
}

#[test]
fn text_is_told_from_paper_and_from_the_ground_of_boxes() {
    assert!((contrast(Ink::Paper, Ink::Text) - 16.4).abs() < 1.0);
    for ink in [Ink::Text, Ink::Weak, Ink::Accent] {
        for ground in [Ink::Paper, Ink::Tint] {
            assert!(contrast(ink, ground) > 4.5, "{ink:?} on {ground:?}");
        }
    }
}
