declare module 'virtual:look.css';
