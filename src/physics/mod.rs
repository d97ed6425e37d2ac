//! SI numbers in, SI numbers out: moist air, openings, wind and balances. Knows no survey.
