// Every screen but the step, in one piece: their code is on the phone, but read only when one is asked for.
import type { Component } from "svelte";
import type { Route } from "./route";
import Board from "./board/Board.svelte";
import Build from "./build/Build.svelte";
import Findings from "./findings/Findings.svelte";
import Login from "./login/Login.svelte";
import Parts from "./parts/Parts.svelte";
import Practice from "./practice/Practice.svelte";
import Settings from "./settings/Settings.svelte";
import Sheet from "./sheet/Sheet.svelte";
import Today from "./today/Today.svelte";

export type Screen = Component<{ build: string }>;
export type Name = Exclude<Route["screen"], "step" | "lost">;
const SCREENS: Record<Name, unknown> = { today: Today, build: Build, findings: Findings, parts: Parts, sheet: Sheet, board: Board, practice: Practice, settings: Settings, login: Login };

export const screenOf = (name: Name): Screen => SCREENS[name] as Screen;
