//! One spelling of what can be written in several.

/// Small letters without accents, signs of units in one spelling.
pub(in crate::series) fn folded(text: &str) -> String {
    plain(text)
        .to_lowercase()
        .chars()
        .filter_map(|sign| {
            Some(match sign {
                'à' | 'á' | 'â' | 'ä' | 'ã' | 'å' => 'a',
                'ç' | 'ć' | 'č' => 'c',
                'è' | 'é' | 'ê' | 'ë' | 'ė' | 'ę' | 'ě' => 'e',
                'ì' | 'í' | 'î' | 'ï' | 'ı' => 'i',
                'ñ' | 'ń' | 'ň' => 'n',
                'ò' | 'ó' | 'ô' | 'ö' | 'õ' | 'ø' | 'ő' => 'o',
                'ś' | 'š' | 'ş' => 's',
                'ù' | 'ú' | 'û' | 'ü' | 'ů' | 'ű' => 'u',
                'ý' => 'y',
                'ż' | 'ź' | 'ž' => 'z',
                'μ' => 'µ',
                // The dot that a capital letter leaves behind.
                '\u{307}' => return None,
                other => other,
            })
        })
        .collect()
}

/// One spelling for signs that have several.
pub(super) fn plain(text: &str) -> String {
    text.replace('℃', "°C")
        .replace('℉', "°F")
        .replace("&deg;", "°")
        .chars()
        .map(|sign| match sign {
            'º' | '˚' => '°',
            '²' | '₂' => '2',
            '³' => '3',
            '⁻' | '−' => '-',
            '（' | '［' => '(',
            '）' | '］' => ')',
            '％' => '%',
            '⋅' | '•' => '·',
            white if white.is_whitespace() => ' ',
            other => other,
        })
        .collect()
}
