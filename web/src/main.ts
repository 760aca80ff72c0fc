import { mount } from "svelte";
import "ol/ol.css";
import "./style.css";
import App from "./App.svelte";

mount(App, { target: document.getElementById("workbench")! });
