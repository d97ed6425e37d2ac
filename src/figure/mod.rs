//! Answers as drawings: one description that every surface can paint.
//!
//! A [`Scene`] is a list of simple shapes in millimetres with colour roles and the gaps they
//! stand for. The window paints and hit-tests it, the job sheet writes it as SVG; neither knows
//! how a vehicle is unfolded or a rose is drawn.

pub mod body;
pub mod fan_test;
pub mod in_short;
mod letters;
pub mod options;
pub mod outline;
pub mod psychrometric;
pub mod ranked;
pub mod rose;
pub mod scene;
pub mod section;
pub mod styles;
pub mod trial;
pub mod winter;

pub use body::{Arrangement, BodyFigure, Layout, Picked, Show};
pub use fan_test::fan_test;
pub use options::options;
pub use psychrometric::{Psychrometric, psychrometric};
pub use ranked::ranked;
pub use rose::{RoseFrame, rose};
pub use scene::{Anchor, Dash, Mark, Point, Role, Scene, Shape, Stroke};
pub use section::section;
