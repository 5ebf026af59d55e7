// Starts the app: the page first, then everything that may take a moment.
// App gets one property, `bench` (BenchApi): its methods wait by themselves until the log is open.
import { mount } from "svelte";
import App from "./App.svelte";

const target = document.getElementById("app");
if (target) mount(App, { target });
