import { render } from 'preact';
import { App } from './app.tsx';
import './style.css';

const page = document.getElementById('page');
if (page) render(<App />, page);
