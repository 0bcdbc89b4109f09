/** The version of what goes over the wire. A test keeps the shape of each version: another shape is another version. */
export const API_VERSION = '1.0.0';
