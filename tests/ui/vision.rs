//! Contrast, colour difference and colour blindness, worked out from published formulas.

/// Linear red, green and blue of a coded channel: IEC 61966-2-1.
fn linear(channel: u8) -> f64 {
    let coded = f64::from(channel) / 255.0;
    if coded <= 0.040_45 {
        coded / 12.92
    } else {
        ((coded + 0.055) / 1.055).powf(2.4)
    }
}

/// Contrast of two colours: WCAG 2.2, "contrast ratio".
pub(crate) fn contrast(one: [u8; 3], other: [u8; 3]) -> f64 {
    let light = |color: [u8; 3]| {
        let [r, g, b] = color.map(linear);
        0.2126 * r + 0.7152 * g + 0.0722 * b + 0.05
    };
    let (one, other) = (light(one), light(other));
    one.max(other) / one.min(other)
}

/// Whose eyes look.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Sight {
    Usual,
    Protanopia,
    Deuteranopia,
    Tritanopia,
}

impl Sight {
    pub(crate) const ALL: [Self; 4] = [
        Self::Usual,
        Self::Protanopia,
        Self::Deuteranopia,
        Self::Tritanopia,
    ];

    /// Matrices for linear sRGB at severity 1.0: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A
    /// physiologically-based model for simulation of color vision deficiency", IEEE Transactions on
    /// Visualization and Computer Graphics 15 (2009) 1291–1298. Digit by digit those that the library
    /// colour-science 0.4.7 holds.
    const fn matrix(self) -> [[f64; 3]; 3] {
        match self {
            Self::Usual => [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
            Self::Protanopia => [
                [0.152_286, 1.052_583, -0.204_868],
                [0.114_503, 0.786_281, 0.099_216],
                [-0.003_882, -0.048_116, 1.051_998],
            ],
            Self::Deuteranopia => [
                [0.367_322, 0.860_646, -0.227_968],
                [0.280_085, 0.672_501, 0.047_413],
                [-0.011_820, 0.042_940, 0.968_881],
            ],
            Self::Tritanopia => [
                [1.255_528, -0.076_749, -0.178_779],
                [-0.078_411, 0.930_809, 0.147_602],
                [0.004_733, 0.691_367, 0.303_900],
            ],
        }
    }

    /// What they see, as CIE L*a*b* under D65.
    pub(crate) fn lab(self, color: [u8; 3]) -> [f64; 3] {
        let light = color.map(linear);
        let seen = times(self.matrix(), light).map(|part| part.clamp(0.0, 1.0));
        let tristimulus = times(
            [
                [0.412_456_4, 0.357_576_1, 0.180_437_5],
                [0.212_672_9, 0.715_152_2, 0.072_175_0],
                [0.019_333_9, 0.119_192_0, 0.950_304_1],
            ],
            seen,
        );
        let root = |part: f64| {
            if part > 216.0 / 24389.0 {
                part.cbrt()
            } else {
                (24389.0 / 27.0 * part + 16.0) / 116.0
            }
        };
        let [x, y, z] = tristimulus;
        let (x, y, z) = (root(x / 0.950_47), root(y), root(z / 1.088_83));
        [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
    }
}

fn times(matrix: [[f64; 3]; 3], vector: [f64; 3]) -> [f64; 3] {
    matrix.map(|row| row[0] * vector[0] + row[1] * vector[1] + row[2] * vector[2])
}

/// Hue angle, degrees; 0 for grey.
fn angle(a: f64, b: f64) -> f64 {
    if a == 0.0 && b == 0.0 {
        0.0
    } else {
        b.atan2(a).to_degrees().rem_euclid(360.0)
    }
}

/// CIEDE2000 difference: G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000 color-difference formula:
/// implementation notes, supplementary test data, and mathematical observations", Color Research and
/// Application 30 (2005) 21–30, equations 2 to 22.
pub(crate) fn difference([l1, a1, b1]: [f64; 3], [l2, a2, b2]: [f64; 3]) -> f64 {
    let seventh = |chroma: f64| (chroma.powi(7) / (chroma.powi(7) + 25_f64.powi(7))).sqrt();
    let stretch = 1.5 - 0.5 * seventh(f64::midpoint(a1.hypot(b1), a2.hypot(b2)));
    let (a1, a2) = (a1 * stretch, a2 * stretch);
    let (c1, c2) = (a1.hypot(b1), a2.hypot(b2));
    let (h1, h2) = (angle(a1, b1), angle(a2, b2));
    let grey = c1 * c2 == 0.0;
    let turn = match h2 - h1 {
        _ if grey => 0.0,
        turn if turn > 180.0 => turn - 360.0,
        turn if turn < -180.0 => turn + 360.0,
        turn => turn,
    };
    let sin = |degrees: f64| degrees.to_radians().sin();
    let cos = |degrees: f64| degrees.to_radians().cos();
    let hue = 2.0 * (c1 * c2).sqrt() * sin(turn / 2.0);
    let mean_hue = match h1 + h2 {
        sum if grey => sum,
        sum if (h1 - h2).abs() <= 180.0 => sum / 2.0,
        sum if sum < 360.0 => f64::midpoint(sum, 360.0),
        sum => (sum - 360.0) / 2.0,
    };
    let (light, chroma) = (f64::midpoint(l1, l2), f64::midpoint(c1, c2));
    let t = 1.0 - 0.17 * cos(mean_hue - 30.0)
        + 0.24 * cos(2.0 * mean_hue)
        + 0.32 * cos(3.0 * mean_hue + 6.0)
        - 0.20 * cos(4.0 * mean_hue - 63.0);
    let off = (light - 50.0).powi(2);
    let by_light = (l2 - l1) / (1.0 + 0.015 * off / (20.0 + off).sqrt());
    let by_chroma = (c2 - c1) / (1.0 + 0.045 * chroma);
    let by_hue = hue / (1.0 + 0.015 * chroma * t);
    let bend = 60.0 * (-((mean_hue - 275.0) / 25.0).powi(2)).exp();
    let turned = -sin(bend) * 2.0 * seventh(chroma);
    (by_light.powi(2) + by_chroma.powi(2) + by_hue.powi(2) + turned * by_chroma * by_hue).sqrt()
}
