#!/usr/bin/env node
console.log('tankside');
