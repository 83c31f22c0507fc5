declare const brand: unique symbol;

/**
 * A type that only its own checked constructor may make: `Brand<string, 'VesselId'>` is a string at run time and
 * no other string to the compiler.
 */
export type Brand<T, Name extends string> = T & { readonly [brand]: Name };
