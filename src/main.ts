// Before the map's library, which tries out markup as it comes.
import './view/trusted'
import '@fontsource-variable/overpass/wght.css'
import './view/theme.css'
import { mount } from 'svelte'
import App from './view/App.svelte'

mount(App, { target: document.getElementById('app')! })
