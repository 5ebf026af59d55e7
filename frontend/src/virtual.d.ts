declare module "virtual:kernel-source" {
  /** Address of the packed kernel: JSON text, {path: Python source}. */
  const url: string;
  export default url;
}
