/**
 * Flight functions. Directions in degrees (of the same north for wind and runway: tower wind and runways are magnetic),
 * speeds in kt, heights in ft, pressures in hPa, temperatures in °C. Standard atmosphere: ICAO Doc 7488/3 (1993), the
 * same below 32 km as U.S. Standard Atmosphere 1976.
 */

const FT = 0.3048;
/** K, sea level. */
const T0 = 288.15;
/** hPa, sea level. */
const P0 = 1013.25;
/** K/m, to the tropopause. */
const LAPSE = 0.0065;
/** m */
const TROPOPAUSE = 11_000;
/** g0 M / R*, K/m: 9.80665 m/s² over 287.05287 m²/(s² K). */
const G_R = 9.80665 / 287.05287;
const EXPONENT = G_R / LAPSE;
const KELVIN = 273.15;

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
 * Along the runway, kt; negative: tailwind. Wind triangle: speed × cos(wind from − runway).
 * Source: FAA-H-8083-25C, chapter 11, crosswind component chart.
 */
export const headwind = (windDir: number, windSpeed: number, runway: number): number =>
  windSpeed * turn(windDir - runway).cos + 0;

/** Across the runway, kt; positive from the right. speed × sin(wind from − runway). Source as `headwind`. */
export const crosswind = (windDir: number, windSpeed: number, runway: number): number =>
  windSpeed * turn(windDir - runway).sin + 0;

/** Temperature of the standard atmosphere, °C, at a pressure altitude in ft, up to 20 km. ICAO Doc 7488/3. */
export const isaTemperature = (pressureAltitudeFt: number): number =>
  T0 - LAPSE * Math.min(pressureAltitudeFt * FT, TROPOPAUSE) - KELVIN;

/** Pressure of the standard atmosphere, hPa, at a pressure altitude in ft, up to 20 km. ICAO Doc 7488/3. */
export const isaPressure = (pressureAltitudeFt: number): number => {
  const m = pressureAltitudeFt * FT;
  const low = Math.min(m, TROPOPAUSE);
  const p = P0 * ((T0 - LAPSE * low) / T0) ** EXPONENT;
  return m <= TROPOPAUSE ? p : p * Math.exp((-G_R * (m - TROPOPAUSE)) / (T0 - LAPSE * TROPOPAUSE));
};

/** Pressure altitude, ft, of a static pressure, hPa, up to 20 km: the inverse of `isaPressure`. */
const altitudeOf = (pressure: number): number => {
  const top = T0 - LAPSE * TROPOPAUSE;
  const atTop = P0 * (top / T0) ** EXPONENT;
  const m =
    pressure >= atTop
      ? (T0 / LAPSE) * (1 - (pressure / P0) ** (1 / EXPONENT))
      : TROPOPAUSE + (top / G_R) * Math.log(atTop / pressure);
  return m / FT;
};

/**
 * Pressure altitude, ft, of a place at an elevation, ft, with the QNH, hPa. By the definition of QNH the elevation is
 * a difference of standard heights: elevation + height of the QNH's level. ICAO Doc 7488/3; 14 CFR Part 43 App. E.
 */
export const pressureAltitude = (elevationFt: number, qnh: number): number => elevationFt + altitudeOf(qnh);

/**
 * Density altitude, ft: the height of the standard atmosphere with the same density. ρ/ρ0 = (p/p0)(T0/T); below the
 * tropopause h = T0/L (1 − (ρ/ρ0)^(1/(n−1))). ICAO Doc 7488/3.
 */
export const densityAltitude = (pressureAltitudeFt: number, oat: number): number => {
  const ratio = densityRatio(pressureAltitudeFt, oat);
  return ((T0 / LAPSE) * (1 - ratio ** (1 / (EXPONENT - 1)))) / FT;
};

const densityRatio = (pressureAltitudeFt: number, oat: number): number =>
  (isaPressure(pressureAltitudeFt) / P0) * (T0 / (oat + KELVIN));

/** True airspeed, kt, of an equivalent airspeed: EAS / √(ρ/ρ0). Without compressibility: below about 200 kt and 10,000 ft CAS serves. */
export const trueAirspeed = (eas: number, pressureAltitudeFt: number, oat: number): number =>
  eas / Math.sqrt(densityRatio(pressureAltitudeFt, oat));
