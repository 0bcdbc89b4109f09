/** What is chosen of a circuit, in the law's words; the call and the unit's page offer the same. */
export const USE_OPTIONS = [
  { value: 'commercial-refrigeration', text: 'Commercial refrigeration' },
  { value: 'industrial-process-refrigeration', text: 'Industrial process refrigeration' },
  { value: 'comfort-cooling', text: 'Comfort cooling' },
  { value: 'refrigerated-transport', text: 'Refrigerated transport' },
  { value: 'other', text: 'Other appliance' },
];
export const CHARGE_FROM_OPTIONS = [
  { value: 'manufacturer', text: 'Maker\u2019s figure' },
  { value: 'calculated', text: 'Calculated from components' },
  { value: 'measured', text: 'Measured by weight' },
  { value: 'range', text: 'An established range' },
];
export const RANGE_HINT = 'Both ends, as 200 to 240; the midpoint counts.';
export const EQUIPMENT_OPTIONS = [
  { value: 'rack', text: 'Rack of compressors' },
  { value: 'chiller', text: 'Chiller' },
  { value: 'rooftop', text: 'Rooftop unit' },
  { value: 'split', text: 'Split system' },
  { value: 'variable-flow', text: 'Variable refrigerant flow' },
  { value: 'other', text: 'Something else' },
];
/** 89 FR 82717-82719: residential and light commercial air conditioning and heat pumps are outside the leak repair rule. */
export const SUBSECTOR_OPTIONS = [
  { value: '', text: 'Not decided' },
  { value: 'residential-light-commercial-ac', text: 'Residential and light commercial air conditioning' },
  { value: 'none', text: 'Not in that subsector' },
];
