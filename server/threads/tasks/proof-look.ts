import type { EngravingChoice } from '../../../render/index.ts';
import type { ProofChoice } from '../../api/requests/options.ts';

/** How the pages and words of a proof or of a marked attempt are to look, as far as that is said. */
export const proofLook = ({
  language,
  naming,
  paper,
  staffMm,
}: Pick<ProofChoice, 'language' | 'naming' | 'paper' | 'staffMm'>): EngravingChoice => ({
  ...(language === undefined ? {} : { language }),
  ...(naming === undefined ? {} : { naming }),
  ...(paper === undefined ? {} : { paper }),
  ...(staffMm === undefined ? {} : { staffMm }),
});
