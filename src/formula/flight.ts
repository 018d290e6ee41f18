/**
 * Flight functions. Directions in degrees (of the same north for wind and runway: tower wind and runways are magnetic),
 * speeds in kt, heights in ft, pressures in hPa, temperatures in °C. Heights are geopotential; air is dry.
 *
 * Standard atmosphere: ICAO Doc 7488/3 (1993), by its constants as ISO 2533:1975 and the U.S. Standard Atmosphere 1976
 * have them below 20 km (documents and the range of the first, from -5 km, from memory; the tests hold the result to the
 * table of 14 CFR Part 43 Appendix E). Two layers: 6.5 K/km to the tropopause at 11 km (36,089 ft), even temperature to
 * 20 km (65,617 ft). Outside -5 km to 20 km, and where air cannot be (absolute zero, no pressure), all give NaN.
 */

/** m, by definition. */
const FT = 0.3048;
/** °C to K. */
const KELVIN = 273.15;
/** K and hPa, at sea level. */
const T0 = 288.15;
const P0 = 1013.25;
/** K/m, to the tropopause. */
const GRADIENT = 0.0065;
/** m */
const TROPOPAUSE = 11_000;
const LOWEST = -5_000;
const HIGHEST = 20_000;
/** K, above the tropopause. */
const T_TOP = T0 - GRADIENT * TROPOPAUSE;
/** K/m: g0 over the gas constant of air, 9.80665 m/s² over 287.05287 m²/(s² K). */
const G_R = 9.80665 / 287.05287;

/** (T/T0)^n: n for pressure, one less for density, whose fall is slowed by the cold. */
const PRESSURE = G_R / GRADIENT;
const DENSITY = PRESSURE - 1;

/** Share of the sea-level value at a height in m. */
const shareAt = (m: number, power: number): number => {
  if (!(m >= LOWEST && m <= HIGHEST)) return Number.NaN;
  if (m <= TROPOPAUSE) return ((T0 - GRADIENT * m) / T0) ** power;
  return (T_TOP / T0) ** power * Math.exp((-G_R * (m - TROPOPAUSE)) / T_TOP);
};

/** The inverse of `shareAt`: height in ft. */
const heightOf = (share: number, power: number): number => {
  const top = (T_TOP / T0) ** power;
  const m =
    share >= top ? (T0 / GRADIENT) * (1 - share ** (1 / power)) : TROPOPAUSE + (T_TOP / G_R) * Math.log(top / share);
  return m >= LOWEST && m <= HIGHEST ? m / FT : Number.NaN;
};

/** ρ/ρ0 = (p/p0)(T0/T), the gas law. */
const densityRatio = (pressureAltitudeFt: number, oat: number): number => {
  const kelvin = oat + KELVIN;
  return kelvin > 0 ? (shareAt(pressureAltitudeFt * FT, PRESSURE) * T0) / kelvin : Number.NaN;
};

/** cos and sin of degrees, exact at multiples of 90°: a wind square across the runway has no tailwind. */
const turn = (degrees: number): { readonly cos: number; readonly sin: number } => {
  const d = ((degrees % 360) + 360) % 360;
  if (d === 0) return { cos: 1, sin: 0 };
  if (d === 90) return { cos: 0, sin: 1 };
  if (d === 180) return { cos: -1, sin: 0 };
  if (d === 270) return { cos: 0, sin: -1 };
  const r = (d * Math.PI) / 180;
  return { cos: Math.cos(r), sin: Math.sin(r) };
};

/**
 * Along the runway, kt; negative: tailwind. speed × cos(wind from − runway). Source: the wind triangle, as in the
 * crosswind component chart of FAA-H-8083-25, Figure 11-31.
 */
export const headwind = (windDir: number, windSpeed: number, runway: number): number =>
  windSpeed * turn(windDir - runway).cos + 0;

/** Across the runway, kt; positive from the right. speed × sin(wind from − runway). Source as `headwind`. */
export const crosswind = (windDir: number, windSpeed: number, runway: number): number =>
  windSpeed * turn(windDir - runway).sin + 0;

/** Temperature of the standard atmosphere, °C, at a pressure altitude in ft. Source: ICAO Doc 7488/3. */
export const isaTemperature = (pressureAltitudeFt: number): number => {
  const m = pressureAltitudeFt * FT;
  return m >= LOWEST && m <= HIGHEST ? T0 - KELVIN - GRADIENT * Math.min(m, TROPOPAUSE) : Number.NaN;
};

/**
 * Pressure altitude, ft, of a place at an elevation in ft with the QNH in hPa: the elevation, and the height of the
 * QNH's level in the standard atmosphere, since an altimeter counts in differences of standard heights.
 * Source: ICAO Doc 7488/3; 14 CFR Part 43 Appendix E, Table IV.
 */
export const pressureAltitude = (elevationFt: number, qnh: number): number =>
  elevationFt + heightOf(qnh / P0, PRESSURE);

/** Density altitude, ft: the height at which the standard atmosphere is as dense. Source: ICAO Doc 7488/3. */
export const densityAltitude = (pressureAltitudeFt: number, oat: number): number =>
  heightOf(densityRatio(pressureAltitudeFt, oat), DENSITY);

/**
 * True airspeed, kt, of an equivalent airspeed in kt: EAS / √(ρ/ρ0). Calibrated airspeed serves for EAS while
 * compressibility is small (below about 200 kt and 10,000 ft). Source: 14 CFR 1.1, "True airspeed".
 */
export const trueAirspeed = (eas: number, pressureAltitudeFt: number, oat: number): number =>
  eas / Math.sqrt(densityRatio(pressureAltitudeFt, oat));
