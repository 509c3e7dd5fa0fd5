"""Resins and the values of their product data sheets."""
