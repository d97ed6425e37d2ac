//! The photos of the samples: no photographs, but drawings of gaps seen close, made here.
//!
//! `UPDATE_SAMPLES=1 cargo test --test layers drawings` draws them anew. Places are in points of a
//! picture 480 wide and 360 high; each drawing is a pile of shapes, the last one on top.

use std::error::Error;
use std::fs;

use image::codecs::png::{CompressionType, FilterType, PngEncoder};
use image::{Rgb, RgbImage};

use super::package;

/// Points across and down.
const WIDTH: u32 = 480;
const HEIGHT: u32 = 360;
/// Samples of a pixel, each way: edges come out smooth.
const SAMPLES: u32 = 4;
/// How far a pixel may be off: another machine may round the other way.
const TOLERANCE: u8 = 2;

/// The photo folder that the drawings are for.
const FOLDER: &str = "sample-surveys/vineyard-coachbuilt.photos";

type Shape = Box<dyn Fn(f64, f64) -> bool>;
type Colour = [u8; 3];

const DARK: Colour = [16, 18, 20];
const RUBBER: Colour = [52, 57, 60];
const STEEL: Colour = [128, 138, 145];
const WALL: Colour = [219, 222, 216];
const PANEL: Colour = [196, 204, 199];
const WOOD: Colour = [197, 160, 112];
const GRAIN: Colour = [178, 140, 94];
const PIPE: Colour = [226, 228, 230];
const SHADE: Colour = [168, 174, 178];
const LIGHT: Colour = [255, 236, 170];
const FOAM: Colour = [232, 214, 150];

/// Shapes on a ground.
struct Drawing {
    ground: Colour,
    shapes: Vec<(Shape, Colour)>,
}

impl Drawing {
    fn on(ground: Colour) -> Self {
        Self {
            ground,
            shapes: Vec::new(),
        }
    }

    fn put(mut self, colour: Colour, shape: impl Fn(f64, f64) -> bool + 'static) -> Self {
        self.shapes.push((Box::new(shape), colour));
        self
    }

    fn rectangle(self, colour: Colour, [left, top, right, bottom]: [f64; 4]) -> Self {
        self.put(colour, move |x, y| {
            (left..right).contains(&x) && (top..bottom).contains(&y)
        })
    }

    fn disc(self, colour: Colour, at: (f64, f64), radius: f64) -> Self {
        self.put(colour, move |x, y| {
            (x - at.0).powi(2) + (y - at.1).powi(2) < radius * radius
        })
    }

    /// A line with round ends through all the points.
    fn line(self, colour: Colour, width: f64, points: &[(f64, f64)]) -> Self {
        let points = points.to_vec();
        self.put(colour, move |x, y| {
            let near = |ends: &[(f64, f64)]| match ends {
                [a, b] => {
                    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
                    let along = ((x - a.0) * dx + (y - a.1) * dy) / (dx * dx + dy * dy);
                    let along = along.clamp(0.0, 1.0);
                    let (off_x, off_y) = (x - a.0 - along * dx, y - a.1 - along * dy);
                    off_x * off_x + off_y * off_y < width * width / 4.0
                }
                _ => false,
            };
            points.windows(2).any(near)
        })
    }

    /// Everything inside the points, by the even-odd rule.
    fn area(self, colour: Colour, corners: &[(f64, f64)]) -> Self {
        let corners = corners.to_vec();
        self.put(colour, move |x, y| {
            let mut inside = false;
            let next = corners.iter().cycle().skip(1);
            for (a, b) in corners.iter().zip(next) {
                if (a.1 > y) != (b.1 > y) && x < (b.0 - a.0) * (y - a.1) / (b.1 - a.1) + a.0 {
                    inside = !inside;
                }
            }
            inside
        })
    }

    /// Grain of wood: fine lines across the whole picture.
    fn grain(mut self) -> Self {
        for row in 0..15_u32 {
            let y = f64::from(row) * 25.0 + f64::from(row * row % 7);
            let bend = f64::from(row * 5 % 11) - 5.0;
            let points = [(0.0, y), (160.0, y + bend), (330.0, y - bend), (480.0, y)];
            self = self.line(GRAIN, 2.5, &points);
        }
        self
    }

    fn at(&self, x: f64, y: f64) -> Colour {
        let top = self.shapes.iter().rev().find(|(shape, _)| shape(x, y));
        top.map_or(self.ground, |(_, colour)| *colour)
    }

    fn picture(&self) -> RgbImage {
        RgbImage::from_fn(WIDTH, HEIGHT, |x, y| {
            let mut sum = [0_u32; 3];
            for sample in 0..SAMPLES * SAMPLES {
                let part = |at: u32| (f64::from(at) + 0.5) / f64::from(SAMPLES);
                let colour = self.at(
                    f64::from(x) + part(sample % SAMPLES),
                    f64::from(y) + part(sample / SAMPLES),
                );
                for (sum, part) in sum.iter_mut().zip(colour) {
                    *sum += u32::from(part);
                }
            }
            Rgb(sum.map(|sum| u8::try_from(sum / (SAMPLES * SAMPLES)).unwrap_or(u8::MAX)))
        })
    }
}

/// Torn rubber at the lower corner of a flap.
fn garage_flap() -> Drawing {
    Drawing::on(WALL)
        .rectangle(SHADE, [128.0, -10.0, 490.0, 300.0])
        .area(
            DARK,
            &[
                (128.0, 190.0),
                (172.0, 190.0),
                (172.0, 258.0),
                (262.0, 258.0),
                (262.0, 300.0),
                (128.0, 300.0),
            ],
        )
        .rectangle(PANEL, [160.0, -10.0, 490.0, 268.0])
        .rectangle(WALL, [184.0, -10.0, 490.0, 244.0])
        .line(RUBBER, 18.0, &[(144.0, -10.0), (144.0, 186.0)])
        .line(RUBBER, 18.0, &[(258.0, 284.0), (490.0, 284.0)])
        .line(
            RUBBER,
            16.0,
            &[(144.0, 186.0), (128.0, 222.0), (96.0, 250.0)],
        )
        .line(
            RUBBER,
            16.0,
            &[(258.0, 284.0), (222.0, 304.0), (196.0, 330.0)],
        )
        .line(STEEL, 5.0, &[(144.0, -10.0), (144.0, 150.0)])
        .disc(STEEL, (330.0, 120.0), 34.0)
        .disc(PANEL, (330.0, 120.0), 26.0)
        .rectangle(RUBBER, [326.0, 98.0, 334.0, 142.0])
}

/// A loom through sheet steel, its grommet slipped along it.
fn loom(sealed: bool) -> Drawing {
    const STRANDS: [Colour; 6] = [
        [178, 60, 52],
        [58, 92, 150],
        [214, 180, 60],
        [74, 130, 84],
        [92, 74, 60],
        [150, 150, 156],
    ];
    let mut drawing = Drawing::on(STEEL)
        .line([112, 121, 128], 7.0, &[(0.0, 78.0), (480.0, 58.0)])
        .line([112, 121, 128], 7.0, &[(0.0, 318.0), (480.0, 330.0)])
        .disc([146, 156, 162], (240.0, 187.0), 92.0)
        .disc(DARK, (240.0, 187.0), 78.0);
    if sealed {
        // Putty pressed in with a thumb, over the edge of the hole.
        for (at, radius) in [
            ((240.0, 187.0), 100.0),
            ((168.0, 148.0), 34.0),
            ((306.0, 138.0), 36.0),
            ((174.0, 246.0), 32.0),
        ] {
            drawing = drawing.disc([150, 96, 84], at, radius);
        }
        for at in [(196.0, 152.0), (272.0, 140.0), (190.0, 226.0)] {
            drawing = drawing.disc([166, 112, 98], at, 22.0);
        }
    }
    for (strand, at) in STRANDS
        .into_iter()
        .zip([-30.0, -18.0, -6.0, 6.0, 18.0, 30.0])
    {
        drawing = drawing.line(
            strand,
            13.0,
            &[
                (240.0 + at, 190.0),
                (286.0 + at * 0.9, 260.0),
                (330.0 + at * 0.8, 372.0),
            ],
        );
    }
    if !sealed {
        drawing = drawing
            .line(RUBBER, 30.0, &[(276.0, 318.0), (352.0, 292.0)])
            .line(DARK, 6.0, &[(284.0, 330.0), (360.0, 304.0)]);
    }
    drawing
        .disc([112, 121, 128], (70.0, 190.0), 15.0)
        .disc([146, 156, 162], (70.0, 190.0), 8.0)
        .disc([112, 121, 128], (420.0, 170.0), 15.0)
        .disc([146, 156, 162], (420.0, 170.0), 8.0)
}

/// A sill cut open: the hollow of the post behind a ragged edge.
fn cut_sill(covered: bool) -> Drawing {
    let edge = [
        (142.0, 118.0),
        (196.0, 108.0),
        (252.0, 116.0),
        (310.0, 106.0),
        (318.0, 150.0),
        (308.0, 202.0),
        (320.0, 246.0),
        (258.0, 256.0),
        (206.0, 248.0),
        (138.0, 258.0),
        (146.0, 206.0),
        (134.0, 160.0),
    ];
    let drawing = Drawing::on([150, 156, 150])
        .rectangle([122, 128, 124], [0.0, 0.0, 480.0, 58.0])
        .line([104, 110, 106], 8.0, &[(0.0, 60.0), (480.0, 60.0)])
        .rectangle([134, 140, 134], [0.0, 300.0, 480.0, 360.0])
        .line(
            [200, 204, 200],
            9.0,
            &[
                edge[0], edge[1], edge[2], edge[3], edge[4], edge[5], edge[6],
            ],
        )
        .line(
            [200, 204, 200],
            9.0,
            &[
                edge[6], edge[7], edge[8], edge[9], edge[10], edge[11], edge[0],
            ],
        )
        .area(DARK, &edge)
        .area(
            [38, 42, 44],
            &[
                (160.0, 128.0),
                (214.0, 122.0),
                (196.0, 238.0),
                (158.0, 240.0),
            ],
        )
        .line(
            FOAM,
            22.0,
            &[(296.0, 128.0), (304.0, 172.0), (294.0, 200.0)],
        )
        .line(FOAM, 16.0, &[(282.0, 120.0), (262.0, 128.0)])
        .disc([104, 110, 106], (392.0, 186.0), 20.0)
        .disc([170, 176, 170], (392.0, 186.0), 12.0)
        .line([104, 110, 106], 4.0, &[(384.0, 178.0), (400.0, 194.0)]);
    if !covered {
        return drawing;
    }
    // A plate over all of it, on a gasket that shows at its edge.
    let mut drawing = drawing
        .rectangle(RUBBER, [92.0, 84.0, 354.0, 284.0])
        .rectangle([188, 194, 198], [98.0, 90.0, 348.0, 278.0])
        .line([206, 212, 216], 5.0, &[(104.0, 98.0), (342.0, 98.0)])
        .line([166, 172, 176], 5.0, &[(104.0, 271.0), (342.0, 271.0)]);
    for at in [
        (118.0, 112.0),
        (328.0, 112.0),
        (118.0, 256.0),
        (328.0, 256.0),
    ] {
        drawing = drawing
            .disc([120, 126, 130], at, 11.0)
            .disc([160, 166, 170], at, 8.0);
    }
    drawing
}

/// A pipe through boards, its hole too wide on one side.
fn waste_pipe(sealed: bool) -> Drawing {
    let drawing = Drawing::on(WOOD).grain();
    let drawing = if sealed {
        drawing
            .disc(SHADE, (232.0, 192.0), 132.0)
            .disc([240, 241, 242], (230.0, 189.0), 128.0)
            .line(SHADE, 4.0, &[(230.0, 61.0), (230.0, 317.0)])
            .disc(STEEL, (160.0, 190.0), 9.0)
            .disc(STEEL, (340.0, 190.0), 9.0)
    } else {
        drawing
            .disc([146, 112, 72], (226.0, 194.0), 108.0)
            .disc(DARK, (226.0, 194.0), 102.0)
            .area(
                WOOD,
                &[
                    (130.0, 128.0),
                    (150.0, 142.0),
                    (136.0, 156.0),
                    (120.0, 150.0),
                ],
            )
            .area(GRAIN, &[(292.0, 268.0), (310.0, 252.0), (318.0, 276.0)])
    };
    drawing
        .disc(SHADE, (246.0, 182.0), 78.0)
        .disc(PIPE, (243.0, 179.0), 75.0)
        .disc(SHADE, (243.0, 179.0), 60.0)
        .disc([72, 78, 82], (243.0, 179.0), 56.0)
        .disc([48, 52, 56], (252.0, 190.0), 44.0)
}

/// The corner of a lid whose strip ends too early.
fn rooflight_corner() -> Drawing {
    Drawing::on([238, 239, 236])
        .area(
            [206, 214, 218],
            &[
                (-10.0, 168.0),
                (262.0, 168.0),
                (262.0, 370.0),
                (-10.0, 370.0),
            ],
        )
        .area(
            [176, 196, 206],
            &[
                (-10.0, 204.0),
                (226.0, 204.0),
                (226.0, 370.0),
                (-10.0, 370.0),
            ],
        )
        .line([220, 232, 238], 10.0, &[(10.0, 350.0), (170.0, 226.0)])
        .line([220, 232, 238], 5.0, &[(60.0, 356.0), (198.0, 248.0)])
        .rectangle(SHADE, [-10.0, 92.0, 372.0, 168.0])
        .rectangle(SHADE, [262.0, 92.0, 372.0, 370.0])
        .area(
            DARK,
            &[
                (236.0, 118.0),
                (336.0, 118.0),
                (336.0, 206.0),
                (300.0, 206.0),
                (300.0, 146.0),
                (236.0, 146.0),
            ],
        )
        .line(RUBBER, 26.0, &[(-10.0, 132.0), (240.0, 132.0)])
        .line([84, 90, 94], 6.0, &[(-10.0, 126.0), (232.0, 126.0)])
        .line(RUBBER, 26.0, &[(318.0, 216.0), (318.0, 370.0)])
        .line([84, 90, 94], 6.0, &[(324.0, 224.0), (324.0, 370.0)])
        .disc([226, 219, 200], (424.0, 62.0), 42.0)
        .disc([226, 219, 200], (446.0, 100.0), 30.0)
        .disc(STEEL, (350.0, 110.0), 9.0)
        .line(RUBBER, 3.0, &[(345.0, 105.0), (355.0, 115.0)])
}

/// The foot of a door in the dark, light along its sill.
fn door_sill() -> Drawing {
    Drawing::on([58, 54, 50])
        .rectangle([92, 86, 80], [0.0, 0.0, 480.0, 226.0])
        .rectangle([106, 100, 93], [30.0, 0.0, 450.0, 206.0])
        .rectangle([78, 73, 68], [30.0, 198.0, 450.0, 206.0])
        .area(
            [98, 88, 66],
            &[(96.0, 246.0), (400.0, 246.0), (470.0, 370.0), (10.0, 370.0)],
        )
        .area(
            [128, 114, 78],
            &[
                (126.0, 246.0),
                (366.0, 246.0),
                (396.0, 320.0),
                (84.0, 320.0),
            ],
        )
        .rectangle(RUBBER, [0.0, 226.0, 480.0, 248.0])
        .area(
            LIGHT,
            &[
                (100.0, 238.0),
                (180.0, 230.0),
                (330.0, 231.0),
                (398.0, 239.0),
                (330.0, 244.0),
                (180.0, 244.0),
            ],
        )
        .area(
            [255, 250, 224],
            &[
                (136.0, 238.0),
                (200.0, 234.0),
                (310.0, 234.0),
                (352.0, 238.0),
                (310.0, 241.0),
                (200.0, 241.0),
            ],
        )
        .rectangle(STEEL, [0.0, 248.0, 480.0, 254.0])
        .disc([72, 68, 63], (60.0, 60.0), 14.0)
        .disc([72, 68, 63], (420.0, 60.0), 14.0)
}

fn drawings() -> [(&'static str, Drawing); 9] {
    [
        ("garage-flap.png", garage_flap()),
        ("loom-through-bulkhead.png", loom(false)),
        ("loom-sealed.png", loom(true)),
        ("cut-sill.png", cut_sill(false)),
        ("cut-sill-plate.png", cut_sill(true)),
        ("waste-pipe.png", waste_pipe(false)),
        ("waste-pipe-sealed.png", waste_pipe(true)),
        ("rooflight-corner.png", rooflight_corner()),
        ("door-sill.png", door_sill()),
    ]
}

/// What lies in the folder is what is drawn here, and nothing else is called a photo.
#[test]
fn drawings_of_the_samples_stand_as_they_are_drawn() -> Result<(), Box<dyn Error>> {
    let folder = package().join(FOLDER);
    let update = std::env::var_os("UPDATE_SAMPLES").is_some();
    for (name, drawing) in drawings() {
        let drawn = drawing.picture();
        let path = folder.join(name);
        if update {
            fs::create_dir_all(&folder)?;
            let mut bytes = Vec::new();
            let best = PngEncoder::new_with_quality(
                &mut bytes,
                CompressionType::Best,
                FilterType::Adaptive,
            );
            drawn.write_with_encoder(best)?;
            fs::write(&path, bytes)?;
            continue;
        }
        let kept = image::open(&path)
            .map_err(|error| format!("{name}: {error}"))?
            .to_rgb8();
        assert_eq!(kept.dimensions(), drawn.dimensions(), "{name}");
        let off = kept.iter().zip(drawn.iter()).map(|(a, b)| a.abs_diff(*b));
        let worst = off.max().unwrap_or(u8::MAX);
        assert!(
            worst <= TOLERANCE,
            "{name} differs by {worst}: UPDATE_SAMPLES=1 draws it anew"
        );
    }
    Ok(())
}
