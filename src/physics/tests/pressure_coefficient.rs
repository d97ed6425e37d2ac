use super::super::pressure_coefficient::*;
use super::super::wind::{LEAST_SPEED, Shelter, Terrain, one_sided_flow, speed_at, speed_at_body};
use super::near;

fn body(set: PressureSet, shelter: Shelter, length: f64, width: f64) -> WindBody {
    WindBody {
        set,
        shelter,
        skirted: false,
        length,
        width,
    }
}

#[test]
fn low_rise_set_agrees_with_its_table() {
    // AIVC, Liddament 1986, low-rise 2:1 [M]: rows by angle from the long wall's normal, here
    // the nearside's (wind from 270 + angle), the short wall facing 90 degrees from it being the
    // front.
    let table: [(Shelter, Face, [f64; 8]); 9] = [
        (
            Shelter::Exposed,
            Face::Nearside,
            [0.5, 0.25, -0.5, -0.8, -0.7, -0.8, -0.5, 0.25],
        ),
        (
            Shelter::Exposed,
            Face::Front,
            [-0.9, 0.2, 0.6, 0.2, -0.9, -0.6, -0.35, -0.6],
        ),
        (
            Shelter::Exposed,
            Face::Roof,
            [-0.7, -0.7, -0.8, -0.7, -0.7, -0.7, -0.8, -0.7],
        ),
        (
            Shelter::PartSheltered,
            Face::Nearside,
            [0.25, 0.06, -0.35, -0.6, -0.5, -0.6, -0.35, 0.06],
        ),
        (
            Shelter::PartSheltered,
            Face::Front,
            [-0.6, 0.2, 0.4, 0.2, -0.6, -0.5, -0.3, -0.5],
        ),
        (Shelter::PartSheltered, Face::Roof, [-0.6; 8]),
        (
            Shelter::Sheltered,
            Face::Nearside,
            [0.06, -0.12, -0.2, -0.38, -0.3, -0.38, -0.2, -0.12],
        ),
        (
            Shelter::Sheltered,
            Face::Front,
            [-0.3, 0.15, 0.18, 0.15, -0.3, -0.32, -0.2, -0.32],
        ),
        (
            Shelter::Sheltered,
            Face::Roof,
            [-0.49, -0.46, -0.41, -0.46, -0.49, -0.46, -0.41, -0.46],
        ),
    ];
    for (shelter, face, row) in table {
        let body = body(PressureSet::LowRise, shelter, 6.0, 2.2);
        for (step, expected) in (0..).zip(row) {
            let from_deg = 270.0 + 45.0 * f64::from(step);
            near(body.coefficient(face, from_deg), expected, 1e-12);
        }
    }
}

#[test]
fn wind_head_on_presses_on_the_front_and_sucks_at_the_rear() {
    let body = body(PressureSet::LowRise, Shelter::Exposed, 6.0, 2.2);
    near(body.coefficient(Face::Front, 0.0), 0.6, 1e-12);
    near(body.coefficient(Face::Rear, 0.0), -0.35, 1e-12);
    near(body.coefficient(Face::Rear, 180.0), 0.6, 1e-12);
    near(body.coefficient(Face::Offside, 90.0), 0.5, 1e-12);
    near(body.coefficient(Face::Nearside, 90.0), -0.7, 1e-12);
    // Linear between: 22.5 degrees off the offside's normal is half-way from 0.5 to 0.25.
    near(body.coefficient(Face::Offside, 112.5), 0.375, 1e-12);
}

#[test]
fn coefficients_are_symmetric_and_turn_with_the_wind() {
    for set in [PressureSet::LowRise, PressureSet::WallAverage] {
        for shelter in Shelter::ALL {
            let long = body(set, shelter, 6.0, 2.2);
            let wide = body(set, shelter, 2.2, 6.0);
            for step in -40..=40 {
                let deg = 9.7 * f64::from(step);
                for (face, mirrored) in [
                    (Face::Nearside, Face::Offside),
                    (Face::Front, Face::Front),
                    (Face::Rear, Face::Rear),
                    (Face::Roof, Face::Roof),
                ] {
                    let here = long.coefficient(face, deg);
                    near(long.coefficient(mirrored, -deg), here, 1e-9);
                    near(long.coefficient(face, deg + 360.0), here, 1e-9);
                }
                // A body wider than long is the same body turned by a right angle.
                near(
                    wide.coefficient(Face::Front, deg),
                    long.coefficient(Face::Offside, deg + 90.0),
                    1e-9,
                );
                near(
                    wide.coefficient(Face::Roof, deg),
                    long.coefficient(Face::Roof, deg + 90.0),
                    1e-9,
                );
            }
        }
    }
}

#[test]
fn wall_averages_agree_with_the_published_formula() {
    // Swami & Chandra 1988 [M], side ratio 2 and 0.5 at 0/45/90/135/180 degrees.
    for (ratio, row) in [
        (2.0, [0.603, 0.356, -0.340, -0.494, -0.452]),
        (0.5, [0.603, 0.292, -0.517, -0.494, -0.226]),
    ] {
        for (step, expected) in (0..).zip(row) {
            let deg = 45.0 * f64::from(step);
            near(wall_average(deg, ratio), expected, 6e-4);
            near(wall_average(-deg, ratio), wall_average(deg, ratio), 1e-12);
        }
    }
    let body = body(PressureSet::WallAverage, Shelter::Exposed, 4.4, 2.2);
    near(body.coefficient(Face::Offside, 180.0), -0.340, 6e-4);
    near(body.coefficient(Face::Front, 90.0), -0.517, 6e-4);
    near(body.coefficient(Face::Roof, 90.0), -0.7, 1e-12);
}

#[test]
fn underfloor_follows_shelter_and_skirts() {
    // Assumed values [A]; no published mean for a parked vehicle.
    let mut body = body(PressureSet::LowRise, Shelter::Exposed, 6.0, 2.2);
    for (shelter, expected) in [
        (Shelter::Exposed, -0.2),
        (Shelter::PartSheltered, -0.15),
        (Shelter::Sheltered, -0.1),
    ] {
        body.shelter = shelter;
        near(body.coefficient(Face::Underfloor, 33.0), expected, 1e-12);
    }
    body.skirted = true;
    near(body.coefficient(Face::Underfloor, 33.0), 0.0, 1e-12);
}

#[test]
fn wind_is_slower_near_the_ground_and_in_town() {
    // BS 5925:1991 profile [R] by hand at 2.6 m: 0.68·2.6^0.17 = 0.79991, 0.21·2.6^0.33 = 0.28786.
    near(speed_at(Terrain::OpenFlat, 1.0, 2.6), 0.7999, 1e-4);
    near(speed_at(Terrain::City, 1.0, 2.6), 0.2879, 1e-4);
    // Order of the terrains at any vehicle's height.
    for pair in Terrain::ALL.windows(2) {
        assert!(speed_at(pair[0], 5.0, 2.6) > speed_at(pair[1], 5.0, 2.6));
    }
    // Never quite still [A].
    near(speed_at_body(Terrain::Urban, 0.0, 2.6), LEAST_SPEED, 0.0);
    // BS 5925 single-sided [M]: 0.025 × 0.1 m² × 4 m/s = 10 L/s.
    near(one_sided_flow(0.1, 4.0), 0.010, 1e-15);
}
