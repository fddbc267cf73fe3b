import { Tabs } from 'radix-ui';
import { AddThings } from './add-things.tsx';
import { CameraPlace } from './camera-place.tsx';
import { FigureEditor } from './figure-editor.tsx';
import { VehicleEditor } from './vehicle-editor.tsx';
import '../styles/properties.css';
import '../styles/building.css';

/** Where a scene is built: everything that can be added, and what needs more than fields to be shaped. */
export function Building() {
  return (
    <section className="panel building" aria-label="Build">
      <Tabs.Root defaultValue="add">
        <Tabs.List className="building-tabs" aria-label="Build">
          <Tabs.Trigger value="add">Add</Tabs.Trigger>
          <Tabs.Trigger value="camera">Camera</Tabs.Trigger>
          <Tabs.Trigger value="figure">Figure</Tabs.Trigger>
          <Tabs.Trigger value="vehicle">Vehicle</Tabs.Trigger>
        </Tabs.List>
        <Tabs.Content value="add" tabIndex={-1}>
          <AddThings />
        </Tabs.Content>
        <Tabs.Content value="camera" tabIndex={-1}>
          <CameraPlace />
        </Tabs.Content>
        <Tabs.Content value="figure" tabIndex={-1}>
          <FigureEditor />
        </Tabs.Content>
        <Tabs.Content value="vehicle" tabIndex={-1}>
          <VehicleEditor />
        </Tabs.Content>
      </Tabs.Root>
    </section>
  );
}
