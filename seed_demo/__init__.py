"""An invented yard, told through the same requests that phones make."""
