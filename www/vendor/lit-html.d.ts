// What the page uses of lit-html.

/** Markup with its values, not yet drawn. */
export interface TemplateResult {
  readonly strings: TemplateStringsArray;
  readonly values: unknown[];
}
/** Markup of HTML; values are text, never markup. */
export function html(strings: TemplateStringsArray, ...values: unknown[]): TemplateResult;
/** Markup inside an `<svg>`. */
export function svg(strings: TemplateStringsArray, ...values: unknown[]): TemplateResult;
/** Draws markup into a container, changing only what differs from last time. */
export function render(value: unknown, container: HTMLElement | DocumentFragment): unknown;
/** Draws nothing. */
export const nothing: unique symbol;
