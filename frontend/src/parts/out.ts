// Read, and not within its limits: what the screens show with a picture and a colour.
export const isOut = ({ state }: { state: string }): boolean => state === "under" || state === "over";
