/** A site's name and address in a sentence; a site that is called by its address is said once. */
export const siteWords = ({ name, address }: { readonly name: string; readonly address: string }): string =>
  name === address ? name : `${name}, ${address}`;
