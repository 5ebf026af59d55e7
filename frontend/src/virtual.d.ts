declare module "virtual:trade-pages" {
  /** Address of the trade pages: JSON text, {page: {title, html}}. */
  const url: string;
  export default url;
}
declare module "virtual:kernel-source" {
  /** Address of the packed kernel: JSON text, {path: Python source}. */
  const url: string;
  export default url;
}
