// Sentences with something to fill in. The places have names, because another language puts them in another order.
export interface Forms { none?: string; one: string; many: string }

/** Those that say something, one after the other. */
export const joined = (parts: (string | null | undefined)[], between = " · "): string => parts.filter(Boolean).join(between);

/** "Pass {pass} of {passes}" with its figures. */
export const fill = (text: string, said: Record<string, string | number>): string => text.replace(/\{(\w+)\}/g, (_, place: string) => String(said[place]));

/** The form for none, for one or for many, with the number at its {n}. */
export const count = (n: number, forms: Forms): string => fill((n ? undefined : forms.none) ?? (n === 1 ? forms.one : forms.many), { n });
