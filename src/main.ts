import '@fontsource-variable/overpass/wght.css'
import './view/theme.css'
import { mount } from 'svelte'
import App from './view/App.svelte'

mount(App, { target: document.getElementById('app')! })
