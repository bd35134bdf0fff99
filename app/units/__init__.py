"""Units: conversion, the units a reader chose, typed numbers."""
