/** Driving times without a map: a stated estimate, until measured ones exist. Common practice throughout. */

/** Degrees, WGS 84. */
export interface Coordinates {
  readonly latitude: number;
  readonly longitude: number;
}

/** IUGG mean radius R1 of the Earth. */
const EARTH_RADIUS_KM = 6371.0088;
const ROAD_PER_STRAIGHT_LINE = 1.3;
const KM_PER_HOUR = 45;
/** From everywhere to a place without coordinates. */
export const UNKNOWN_TRAVEL_MINUTES = 30;

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Great-circle distance by the haversine formula. */
export function greatCircleKm(a: Coordinates, b: Coordinates): number {
  const north = Math.sin(radians(b.latitude - a.latitude) / 2);
  const east = Math.sin(radians(b.longitude - a.longitude) / 2);
  const half = north * north + Math.cos(radians(a.latitude)) * Math.cos(radians(b.latitude)) * east * east;
  return 2 * EARTH_RADIUS_KM * Math.asin(Math.min(1, Math.sqrt(half)));
}

/** Whole minutes of driving, rounded up: 1.3 times the great circle at 45 km/h. */
export function travelMinutes(a?: Coordinates | null, b?: Coordinates | null): number {
  if (!a || !b) return UNKNOWN_TRAVEL_MINUTES;
  return Math.ceil(((greatCircleKm(a, b) * ROAD_PER_STRAIGHT_LINE) / KM_PER_HOUR) * 60);
}
