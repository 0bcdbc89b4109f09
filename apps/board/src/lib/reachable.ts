/** Names and addresses of a machine for itself (RFC 6761 6.3, RFC 1122 3.2.1.3, RFC 4291 2.5.3). */
const OWN = /^(localhost|.*\.localhost|127(\.\d{1,3}){3}|0\.0\.0\.0|\[::1?\])$/i;

/** Whether another device could open an address: not one that means the very machine that shows it. */
export const isReachable = (url: string): boolean => URL.canParse(url) && !OWN.test(new URL(url).hostname);
