//! Drawings as SVG, for paper: light on ink, every line solid enough to print.

use super::clusters::{clusters, composed};
use crate::figure::{Anchor, Dash, Point, Role, Scene, Shape, Stroke};
use std::fmt::Write;

/// Family that texts of drawings are set in; DejaVu Sans has the signs that B612 lacks.
const FAMILY: &str = "B612, DejaVu Sans";

/// Family of letters with marks on them: it alone has the marks.
const FOR_MARKS: &str = "DejaVu Sans";

/// Width of the light line round letters by their height: it keeps them readable on marks.
const HALO: f64 = 0.22;

/// Room left and right for captions that reach beyond the drawing, mm.
const BESIDE: f64 = 5.0;

/// A drawing as the text of an SVG file. User text is escaped.
#[must_use]
pub fn svg(scene: &Scene) -> String {
    text(scene, BESIDE)
}

/// The same without room beside it, to lie over something else.
#[must_use]
pub fn svg_exactly(scene: &Scene) -> String {
    text(scene, 0.0)
}

fn text(scene: &Scene, beside: f64) -> String {
    let mut out = String::new();
    let (width, height) = (number(scene.width + 2.0 * beside), number(scene.height));
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
         viewBox=\"{} 0 {width} {height}\">",
        number(0.0 - beside)
    );
    for mark in &scene.marks {
        shape(&mut out, &mark.shape);
    }
    out.push_str("</svg>");
    out
}

fn shape(out: &mut String, shape: &Shape) {
    // Writing to a string cannot fail.
    let _ = match shape {
        Shape::Polyline { points, stroke } => write!(
            out,
            "<polyline points=\"{}\" fill=\"none\"{}/>",
            list(points),
            line(*stroke)
        ),
        Shape::Polygon {
            points,
            fill: inside,
            outline,
        } => write!(
            out,
            "<polygon points=\"{}\"{}{}/>",
            list(points),
            fill(*inside),
            outline.map(line).unwrap_or_default()
        ),
        Shape::Circle {
            centre,
            radius,
            fill: inside,
            outline,
        } => write!(
            out,
            "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"{}{}/>",
            number(centre.x),
            number(centre.y),
            number(*radius),
            fill(*inside),
            outline.map(line).unwrap_or_default()
        ),
        Shape::Arrow {
            from,
            to,
            role,
            width,
        } => arrow(out, *from, *to, *role, *width),
        Shape::Text {
            at,
            text,
            size,
            role,
            anchor,
            // Paper has the widths that were reckoned with.
            room: _,
        } => words(out, *at, text, *size, *role, *anchor),
    };
}

fn arrow(out: &mut String, from: Point, to: Point, role: Role, width: f64) -> std::fmt::Result {
    let length = from.distance(to);
    if length <= 0.0 {
        return Ok(());
    }
    let (dx, dy) = ((to.x - from.x) / length, (to.y - from.y) / length);
    let head = (2.0 + 1.5 * width).min(length);
    let neck = Point::new(to.x - dx * head, to.y - dy * head);
    let wing = 0.45 * head;
    let left = Point::new(neck.x - dy * wing, neck.y + dx * wing);
    let right = Point::new(neck.x + dy * wing, neck.y - dx * wing);
    write!(
        out,
        "<polyline points=\"{}\" fill=\"none\"{}/><polygon points=\"{}\"{}/>",
        list(&[from, neck]),
        line(Stroke::solid(role, width)),
        list(&[to, left, right]),
        fill(Some(role))
    )
}

fn words(
    out: &mut String,
    at: Point,
    text: &str,
    size: f64,
    role: Role,
    anchor: Anchor,
) -> std::fmt::Result {
    let anchor = match anchor {
        Anchor::Left => "start",
        Anchor::Middle => "middle",
        Anchor::Right => "end",
    };
    // The anchor is on the middle of the letters, SVG's is on their feet.
    let baseline = at.y + 0.36 * size;
    write!(
        out,
        "<text x=\"{}\" y=\"{}\" font-family=\"{FAMILY}\" font-size=\"{}\" text-anchor=\"{anchor}\" \
         fill=\"{}\" stroke=\"#ffffff\" stroke-width=\"{}\" stroke-linejoin=\"round\" \
         paint-order=\"stroke\">",
        number(at.x),
        number(baseline),
        number(size),
        colour(role),
        number(HALO * size),
    )?;
    for (piece, marked) in clusters(&composed(text)) {
        let piece = escaped(piece);
        if marked {
            // Else the letter would come from one font and its mark from another, or from none.
            write!(out, "<tspan font-family=\"{FOR_MARKS}\">{piece}</tspan>")?;
        } else {
            out.push_str(&piece);
        }
    }
    out.push_str("</text>");
    Ok(())
}

fn list(points: &[Point]) -> String {
    let each: Vec<String> = points
        .iter()
        .map(|point| format!("{},{}", number(point.x), number(point.y)))
        .collect();
    each.join(" ")
}

fn fill(role: Option<Role>) -> String {
    role.map_or_else(
        || " fill=\"none\"".to_owned(),
        |role| format!(" fill=\"{}\"", colour(role)),
    )
}

fn line(Stroke { role, width, dash }: Stroke) -> String {
    let broken = match dash {
        Dash::Solid => String::new(),
        Dash::Dashed => format!(
            " stroke-dasharray=\"{} {}\"",
            number(4.0 * width),
            number(2.5 * width)
        ),
        Dash::Dotted => format!(
            " stroke-dasharray=\"{} {}\"",
            number(width),
            number(1.8 * width)
        ),
    };
    format!(
        " stroke=\"{}\" stroke-width=\"{}\" stroke-linejoin=\"round\"{broken}",
        colour(role),
        number(width)
    )
}

/// A colour on white paper. Everything that must be told apart is also told apart by shape, dash
/// or words.
fn colour(role: Role) -> &'static str {
    match role {
        Role::Ink => "#1b1f23",
        Role::Faint => "#7a828a",
        Role::Body => "#f7f7f5",
        Role::Glass => "#e3edf2",
        Role::Ground => "#ffffff",
        Role::Leak | Role::Outward => "#c8501e",
        Role::Protected => "#1d6fa5",
        Role::Own => "#8a8f94",
        Role::Inward | Role::First => "#1d5f8a",
        Role::Selected => "#1b1f23",
        Role::Second | Role::Partly => "#b04a12",
        Role::Third | Role::Well => "#4d7a2a",
    }
}

/// Hundredths of a millimetre are finer than any printer.
fn number(value: f64) -> String {
    let text = format!("{value:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The Unicode Standard: a + U+0323 is ạ, and `>` + U+0338 would be ≯.
    #[test]
    fn a_letter_and_its_marks_are_of_one_font_and_marks_leave_the_drawing_alone() {
        let mut scene = Scene::new(10.0, 10.0);
        for text in ["ma\u{323}nh", "ax\u{323}b", "\u{338}slash"] {
            scene.text(Point::new(1.0, 1.0), text, 3.0, Role::Ink, Anchor::Left);
        }
        let svg = svg(&scene);
        assert!(svg.contains(">mạnh</text>"), "{svg}");
        let tspan = "a<tspan font-family=\"DejaVu Sans\">x\u{323}</tspan>b</text>";
        assert!(svg.contains(tspan), "{svg}");
        #[cfg(feature = "sheet")]
        {
            let mut printable = super::super::glyphs::Printable::default();
            assert_eq!(printable.characters(&svg), svg);
        }
    }

    #[test]
    fn text_cannot_break_out() {
        let mut scene = Scene::new(10.0, 10.0);
        scene.text(
            Point::new(1.0, 1.0),
            "</text><script>&",
            3.0,
            Role::Ink,
            Anchor::Left,
        );
        let text = svg(&scene);
        assert!(
            text.contains("&lt;/text&gt;&lt;script&gt;&amp;</text>"),
            "{text}"
        );
        assert_eq!(text.matches("<text").count(), 1);
    }

    #[test]
    fn numbers_are_short_and_shapes_keep_their_dash() {
        let mut scene = Scene::new(10.0, 20.5);
        scene.add(Shape::circle(
            Point::new(1.0 / 3.0, 2.0),
            1.5,
            None,
            Stroke::dashed(Role::Ink, 0.5),
        ));
        let text = svg(&scene);
        assert!(text.contains("viewBox=\"-5 0 20 20.5\""), "{text}");
        assert!(
            text.contains("cx=\"0.333\" cy=\"2\" r=\"1.5\" fill=\"none\""),
            "{text}"
        );
        assert!(text.contains("stroke-dasharray=\"2 1.25\""), "{text}");
    }
}
