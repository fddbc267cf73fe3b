import { Command } from 'cmdk';
import { memo, useCallback, useMemo, useRef, useState } from 'react';
import { catalogue } from '../../scene/building/catalogue.ts';
import type { Recipe, Surroundings } from '../../scene/building/recipe.ts';
import { undo } from '../store/edits.ts';
import { useEditorStore } from '../store/use-editor.ts';
import { OwnCopy } from './own-copy.tsx';
import { placingNow, startPlacing, stopPlacing } from './placing.ts';
import { RecipeSwatch } from './recipe-swatch.tsx';
import { searchCatalogue } from './search-catalogue.ts';

interface CatalogueListProps {
  readonly surroundings: Surroundings;
  readonly onPut: (recipe: Recipe) => void;
}

/** Everything that can be added, to search in: a press or Enter puts it, a drag takes it to the plan. */
export function CatalogueList({ surroundings, onPut }: CatalogueListProps) {
  const store = useEditorStore();
  const { document } = surroundings;
  const { heads, filters, materials, panes } = document;
  // biome-ignore lint/correctness/useExhaustiveDependencies: of the document, the catalogue has the own entries alone
  const recipes = useMemo(() => catalogue(document), [heads, filters, materials, panes]);
  const [lit, setLit] = useState('');
  const [typed, setTyped] = useState('');
  const found = useMemo(() => searchCatalogue(recipes, typed), [recipes, typed]);
  const search = useRef<HTMLInputElement>(null);
  const list = useRef<HTMLDivElement>(null);
  /** Since something was last put. */
  const typing = useRef(false);
  const byId = useMemo(() => new Map(recipes.map((recipe) => [recipe.id, recipe])), [recipes]);
  const latestPut = useRef(onPut);
  latestPut.current = onPut;
  const put = useCallback((recipe: Recipe) => {
    latestPut.current(recipe);
    // The next word typed is a new one.
    if (window.document.activeElement === search.current) search.current?.select();
    typing.current = false;
  }, []);

  return (
    <Command
      label="Things to add"
      className="catalogue"
      value={lit}
      onValueChange={setLit}
      loop
      shouldFilter={false}
    >
      <Command.Input
        ref={search}
        className="catalogue-search"
        placeholder="Search: key, bus, wet, 5600…"
        value={typed}
        onValueChange={(text) => {
          typing.current = true;
          setTyped(text);
          // The list brings its lit row into sight, which would hide the heading over it.
          requestAnimationFrame(() => list.current?.scrollTo({ top: 0 }));
        }}
        onKeyDown={(event) => {
          // With nothing typed anew, there is nothing to take back but what was put.
          if (!(event.ctrlKey || event.metaKey) || event.key !== 'z' || typing.current) return;
          event.preventDefault();
          undo(store);
        }}
      />
      <Command.List ref={list} className="catalogue-list">
        <Command.Empty className="quiet catalogue-empty">
          Nothing answers to that. Try a plainer word: lamp, wall, mark.
        </Command.Empty>
        {found.map(({ group, recipes: some }) => (
          <Command.Group key={group} heading={group}>
            {some.map((recipe) => (
              <RecipeRow key={recipe.id} recipe={recipe} lacking={recipe.lacking(surroundings)} onPut={put} />
            ))}
          </Command.Group>
        ))}
      </Command.List>
      <OwnCopy recipe={byId.get(lit)} surroundings={surroundings} />
    </Command>
  );
}

interface RecipeRowProps {
  readonly recipe: Recipe;
  readonly lacking: string | null;
  readonly onPut: (recipe: Recipe) => void;
}

const RecipeRow = memo(function RecipeRow({ recipe, lacking, onPut }: RecipeRowProps) {
  const store = useEditorStore();
  const { id, name, about, points } = recipe;
  return (
    <Command.Item
      value={id}
      className="recipe"
      data-lacking={lacking ?? undefined}
      onSelect={() => onPut(recipe)}
      draggable={points.length > 0}
      onDragStart={({ dataTransfer }) => {
        dataTransfer.setData('text/plain', name);
        dataTransfer.effectAllowed = 'copy';
        startPlacing(store, recipe);
      }}
      // A drop on the plan has put it, or asks for a second point; anywhere else it is put down.
      onDragEnd={() => placingNow()?.points_m.length === 0 && stopPlacing()}
    >
      <RecipeSwatch id={id} />
      <bdi className="recipe-name">{name}</bdi>
      <span className="quiet recipe-about">
        {about}
        {lacking && <span className="recipe-lacking">; {lacking}</span>}
      </span>
    </Command.Item>
  );
});
