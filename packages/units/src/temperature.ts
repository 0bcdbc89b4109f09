export const TEMPERATURE_UNITS = ['F', 'C', 'K'] as const;
export type TemperatureUnit = (typeof TEMPERATURE_UNITS)[number];

export function toKelvin(value: number, unit: TemperatureUnit): number {
  switch (unit) {
    case 'F':
      return (value + 459.67) / 1.8;
    case 'C':
      return value + 273.15;
    case 'K':
      return value;
  }
}

export function fromKelvin(kelvin: number, unit: TemperatureUnit): number {
  switch (unit) {
    case 'F':
      return kelvin * 1.8 - 459.67;
    case 'C':
      return kelvin - 273.15;
    case 'K':
      return kelvin;
  }
}
