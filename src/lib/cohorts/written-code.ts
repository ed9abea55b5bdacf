/** A code as it is read aloud and typed: in two halves. */
export const writtenCode = (code: string): string => `${code.slice(0, 4)}-${code.slice(4)}`;
