//! Marks put, moved, sized and removed: one step for undo each.

use super::opened::{At, Lightbox, Tool, rounded};
use crate::survey::PhotoMark;
use crate::window::request::Queue;

/// Smallest radius, and shortest arrow, as a share of the width: smaller is a slip of the hand.
const LEAST: f64 = 0.012;
/// Radius of a circle put by key.
const USUAL_RADIUS: f64 = 0.1;

/// The mark that a drag from one place to another draws; `ratio` is height by width. `None` where
/// the drag is too short to be meant.
pub(super) fn drawn(tool: Tool, from: (f64, f64), to: (f64, f64), ratio: f64) -> Option<PhotoMark> {
    let length = (to.0 - from.0).hypot((to.1 - from.1) * ratio);
    if length < LEAST {
        return None;
    }
    Some(match tool {
        Tool::Circle => PhotoMark::Circle {
            across: from.0,
            down: from.1,
            radius: length.min(1.0),
        },
        Tool::Arrow => PhotoMark::Arrow {
            from_across: from.0,
            from_down: from.1,
            across: to.0,
            down: to.1,
        },
    })
}

/// Adds a mark and selects it.
pub(super) fn add(queue: &mut Queue, lightbox: &mut Lightbox, here: &At<'_>, mark: PhotoMark) {
    queue.close_step();
    lightbox.selected = Some(here.photo.marks.len());
    here.change(queue, None, |photo| photo.marks.push(rounded(mark)));
}

/// Puts a mark of the tool's kind where it is seen at once.
pub(super) fn put_in_the_middle(queue: &mut Queue, lightbox: &mut Lightbox, here: &At<'_>) {
    let (from, to) = match lightbox.tool {
        Tool::Circle => ((0.5, 0.5), (0.5 + USUAL_RADIUS, 0.5)),
        Tool::Arrow => ((0.35, 0.35), (0.5, 0.5)),
    };
    if let Some(mark) = drawn(lightbox.tool, from, to, 1.0) {
        add(queue, lightbox, here, mark);
    }
    lightbox.fresh = true;
}

/// Removes the selected mark.
pub(super) fn remove(queue: &mut Queue, lightbox: &mut Lightbox, here: &At<'_>) {
    if let Some(number) = lightbox.selected.take() {
        queue.close_step();
        here.change(queue, None, |photo| {
            if number < photo.marks.len() {
                photo.marks.remove(number);
            }
        });
        lightbox.fresh = true;
    }
}

/// The mark moved by shares of the picture; its place stays in it.
pub(super) fn moved(mark: PhotoMark, across_by: f64, down_by: f64) -> PhotoMark {
    let (across, down) = mark.place();
    let right = (across + across_by).clamp(0.0, 1.0) - across;
    let lower = (down + down_by).clamp(0.0, 1.0) - down;
    mark.changed(
        |across, down| (across + right, down + lower),
        |radius| radius,
    )
}

/// The mark larger or smaller; an arrow keeps its tip.
pub(super) fn sized(mark: PhotoMark, factor: f64) -> PhotoMark {
    let (across, down) = mark.place();
    let factor = match mark {
        PhotoMark::Arrow {
            from_across,
            from_down,
            ..
        } if (from_across - across).hypot(from_down - down) * factor < LEAST => 1.0,
        _ => factor,
    };
    mark.changed(
        |x, y| (across + (x - across) * factor, down + (y - down) * factor),
        |radius| (radius * factor).clamp(LEAST, 1.0),
    )
}

/// An arrow turned about its tip by an eighth; `ratio` is height by width.
pub(super) fn turned(mark: PhotoMark, ratio: f64) -> PhotoMark {
    let (across, down) = mark.place();
    let (sine, cosine) = std::f64::consts::FRAC_PI_4.sin_cos();
    let about_tip = |x: f64, y: f64| {
        let (back, up) = (x - across, (y - down) * ratio);
        (
            across + back * cosine - up * sine,
            down + (back * sine + up * cosine) / ratio,
        )
    };
    mark.changed(about_tip, |radius| radius)
}

/// Whether a place is on the mark, near enough to take hold of it.
pub(super) fn is_at(mark: &PhotoMark, place: (f64, f64), ratio: f64, near: f64) -> bool {
    let distance = |to: (f64, f64)| (place.0 - to.0).hypot((place.1 - to.1) * ratio);
    match *mark {
        PhotoMark::Circle { radius, .. } => distance(mark.place()) <= radius + near,
        PhotoMark::Arrow { .. } => has_line_at(mark, place, ratio, near),
    }
}

/// Whether the line of the mark goes through a place, or so near that it is meant.
pub(super) fn has_line_at(mark: &PhotoMark, place: (f64, f64), ratio: f64, near: f64) -> bool {
    let distance = |to: (f64, f64)| (place.0 - to.0).hypot((place.1 - to.1) * ratio);
    match *mark {
        PhotoMark::Circle { radius, .. } => (distance(mark.place()) - radius).abs() <= near,
        PhotoMark::Arrow {
            from_across,
            from_down,
            across,
            down,
        } => {
            let (x, y) = (across - from_across, (down - from_down) * ratio);
            let (px, py) = (place.0 - from_across, (place.1 - from_down) * ratio);
            let along = ((px * x + py * y) / (x * x + y * y)).clamp(0.0, 1.0);
            let on = (from_across + x * along, from_down + y * along / ratio);
            distance(on) <= near
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ARROW: PhotoMark = PhotoMark::Arrow {
        from_across: 0.2,
        from_down: 0.2,
        across: 0.6,
        down: 0.2,
    };

    #[test]
    fn a_slip_of_the_hand_draws_nothing_and_a_circle_is_round_on_any_picture() {
        assert_eq!(drawn(Tool::Circle, (0.5, 0.5), (0.505, 0.5), 0.75), None);
        // Down a fifth of a height that is half the width: a tenth of the width.
        let circle = drawn(Tool::Circle, (0.5, 0.5), (0.5, 0.7), 0.5);
        let Some(PhotoMark::Circle { radius, .. }) = circle else {
            panic!("{circle:?}")
        };
        assert!((radius - 0.1).abs() < 1e-12);
    }

    #[test]
    fn a_mark_stays_in_the_picture_and_an_arrow_keeps_its_shape() {
        let mark = moved(ARROW, 0.9, -0.9);
        assert!(mark.is_in_picture());
        let PhotoMark::Arrow {
            from_across,
            across,
            ..
        } = mark
        else {
            panic!("{mark:?}")
        };
        assert!((across - 1.0).abs() < 1e-12 && (across - from_across - 0.4).abs() < 1e-12);
    }

    #[test]
    fn an_arrow_turned_eight_times_is_as_before() {
        let mut mark = ARROW;
        for _ in 0..8 {
            mark = turned(mark, 0.6);
        }
        let PhotoMark::Arrow {
            from_across,
            from_down,
            ..
        } = mark
        else {
            panic!("{mark:?}")
        };
        assert!((from_across - 0.2).abs() < 1e-9 && (from_down - 0.2).abs() < 1e-9);
        let once = turned(ARROW, 1.0);
        assert!(is_at(&once, (0.6, 0.2), 1.0, 1e-9));
        assert!(!is_at(&once, (0.2, 0.2), 1.0, 0.05));
    }

    #[test]
    fn marks_are_found_where_they_are() {
        assert!(is_at(&ARROW, (0.4, 0.21), 1.0, 0.02));
        assert!(!is_at(&ARROW, (0.4, 0.3), 1.0, 0.02));
        let small = sized(ARROW, 0.5);
        assert!(!is_at(&small, (0.25, 0.2), 1.0, 0.02) && is_at(&small, (0.5, 0.2), 1.0, 0.02));
    }
}
