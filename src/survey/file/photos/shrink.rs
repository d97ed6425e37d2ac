//! Pictures made smaller by the mean over the area that each new pixel covers, line by line: it
//! takes no memory beside the small picture, where the usual filters take several times the large
//! one.

use image::{DynamicImage, ImageBuffer, Pixel};

/// The picture with so many pixels across and down; at most as many as it has.
pub(super) fn shrunk(image: &DynamicImage, width: u32, height: u32) -> DynamicImage {
    match image {
        DynamicImage::ImageRgb8(image) => mean(image, width, height).into(),
        DynamicImage::ImageRgba8(image) => mean(image, width, height).into(),
        DynamicImage::ImageLuma8(image) => mean(image, width, height).into(),
        DynamicImage::ImageLumaA8(image) => mean(image, width, height).into(),
        // Pictures are held in eight bits for each colour.
        other => other.thumbnail_exact(width, height),
    }
}

type Image<P> = ImageBuffer<P, Vec<u8>>;

/// In units of which `small` make a pixel of the large picture and `large` one of the small: how
/// much of each old pixel from the first on lies in the new pixel `at`.
fn shares(at: u32, small: u32, large: u32) -> impl Iterator<Item = (u32, u64)> {
    let (small, large) = (u64::from(small), u64::from(large));
    let (from, to) = (u64::from(at) * large, (u64::from(at) + 1) * large);
    (from / small..to.div_ceil(small)).filter_map(move |old| {
        let share = (to.min((old + 1) * small)).saturating_sub(from.max(old * small));
        Some((u32::try_from(old).ok()?, share))
    })
}

fn mean<P: Pixel<Subpixel = u8> + 'static>(image: &Image<P>, width: u32, height: u32) -> Image<P> {
    let (width, height) = (
        width.clamp(1, image.width().max(1)),
        height.clamp(1, image.height().max(1)),
    );
    let channels = usize::from(P::CHANNEL_COUNT);
    let line = image.width() as usize * channels;
    let mut rows = image.as_raw().chunks_exact(line.max(1));
    let mut row: &[u8] = rows.next().unwrap_or_default();
    let mut row_number = 0;
    let whole = u64::from(image.width()) * u64::from(image.height());
    let mut sums: Vec<u64> = vec![0; line];
    let mut pixels = Vec::with_capacity(width as usize * height as usize * channels);
    for down in 0..height {
        sums.fill(0);
        for (old, share) in shares(down, height, image.height()) {
            while row_number < old {
                row = rows.next().unwrap_or_default();
                row_number += 1;
            }
            for (sum, value) in sums.iter_mut().zip(row) {
                *sum += u64::from(*value) * share;
            }
        }
        for across in 0..width {
            let mut colour = [0_u64; 4];
            for (old, share) in shares(across, width, image.width()) {
                let at = old as usize * channels;
                let sums = sums.get(at..at + channels).unwrap_or_default();
                for (channel, sum) in colour.iter_mut().zip(sums) {
                    *channel += sum * share;
                }
            }
            let colours = colour.iter().take(channels);
            pixels.extend(colours.map(|sum| {
                let mean = (sum + whole / 2) / whole.max(1);
                u8::try_from(mean).unwrap_or(u8::MAX)
            }));
        }
    }
    ImageBuffer::from_raw(width, height, pixels).unwrap_or_else(|| ImageBuffer::new(width, height))
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::{GrayImage, Luma, RgbImage};

    /// By hand: three pixels on two, each new one a pixel and a half.
    #[test]
    fn a_new_pixel_is_the_mean_of_what_it_covers() {
        let row = GrayImage::from_raw(3, 1, vec![0, 90, 240]).unwrap();
        assert_eq!(mean(&row, 2, 1).into_raw(), [30, 190]);
        let square = GrayImage::from_raw(2, 2, vec![0, 100, 200, 40]).unwrap();
        assert_eq!(mean(&square, 1, 1).into_raw(), [85]);
        assert_eq!(mean(&square, 1, 2).into_raw(), [50, 120]);
        assert_eq!(mean(&square, 2, 1).into_raw(), [100, 70]);
        assert_eq!(mean(&square, 2, 2), square);
        // Never larger.
        assert_eq!(mean(&square, 5, 7), square);
    }

    #[test]
    fn one_colour_stays_the_same_and_channels_stay_apart() {
        let image = RgbImage::from_pixel(37, 23, image::Rgb([255, 3, 128]));
        for (width, height) in [(1, 1), (5, 22), (36, 7)] {
            let small = mean(&image, width, height);
            assert_eq!(small.dimensions(), (width, height));
            assert!(small.pixels().all(|pixel| pixel.0 == [255, 3, 128]));
        }
    }

    /// What is symmetric stays so, and the mean of all stays the mean of all.
    #[test]
    fn brightness_is_kept_and_nothing_moves_aside() {
        let image = GrayImage::from_fn(90, 60, |x, y| {
            let (x, y) = (x.min(89 - x), y.min(59 - y));
            Luma([u8::try_from((x * 3 + y * 2) % 256).unwrap()])
        });
        let small = mean(&image, 41, 17);
        let all = |image: &GrayImage| {
            let sum: f64 = image.pixels().map(|pixel| f64::from(pixel.0[0])).sum();
            sum / f64::from(image.width() * image.height())
        };
        assert!((all(&image) - all(&small)).abs() < 0.5);
        for (x, y, pixel) in small.enumerate_pixels() {
            assert_eq!(pixel, small.get_pixel(40 - x, 16 - y));
        }
    }
}
