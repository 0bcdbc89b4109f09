/** What a picture turned out to be, with a small one of it; undefined when it cannot be decoded. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  /** WebP, for lists. */
  readonly thumbnail: Uint8Array;
}
export type ReadPicture = (bytes: Uint8Array) => Promise<Picture | undefined>;
export interface Part {
  readonly hash: string;
  readonly number: number;
  readonly content: Uint8Array;
}

/** Bytes to be shown, with what they are. */
export interface Shown {
  readonly mediaType: string;
  readonly bytes: Uint8Array;
}
