import { useThree } from '@react-three/fiber';
import { useEffect } from 'react';
import { Vector3 } from 'three';

declare global {
  interface Window {
    /** For tests that drive the view with a pointer: where a point of the scene stands in the window, in CSS pixels. */
    keyfallPlaceOf?: (x_m: number, y_m: number, z_m: number) => { x: number; y: number };
  }
}

export function ScreenPlace() {
  const get = useThree((three) => three.get);
  useEffect(() => {
    window.keyfallPlaceOf = (...point_m) => {
      const { camera, gl } = get();
      camera.updateMatrixWorld();
      const { left, top, width, height } = gl.domElement.getBoundingClientRect();
      const { x, y } = new Vector3(...point_m).project(camera);
      return { x: left + ((x + 1) / 2) * width, y: top + ((1 - y) / 2) * height };
    };
    return () => {
      delete window.keyfallPlaceOf;
    };
  }, [get]);
  return null;
}
