import { enableLog, LOG_OFF, VerovioToolkit } from 'verovio/esm';
import createVerovioModule from 'verovio/wasm';

/** Verovio alone, laying out a score and drawing all its pages: what ours is measured by. */
export const startBareVerovio = async (): Promise<(text: string) => void> => {
  const module = await createVerovioModule();
  enableLog(LOG_OFF, module);
  const toolkit = new VerovioToolkit(module);
  return (text) => {
    toolkit.resetOptions();
    toolkit.setOptions({ scale: 100, xmlIdChecksum: true, mmOutput: true, unit: 8.75 });
    if (toolkit.loadData(text) === 0) throw new Error('Verovio cannot load the source');
    for (let page = 1; page <= toolkit.getPageCount(); page += 1) toolkit.renderToSVG(page);
  };
};
