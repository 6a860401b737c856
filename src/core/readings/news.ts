/**
 * What arrival, and not measurement, says of a node. It is decided once, with a time, and kept as
 * input like a reading.
 */

export type NodeNews =
  | {
      news: 'silent';
      node: string;
      sinceMs: number;
      /** A `site-silent` stands for it. */ withSite?: string;
      /** What its hello says of its supply. */ fedFrom?: string;
    }
  | { news: 'heard'; node: string }
  | { news: 'no-power'; node: string }
  | { news: 'power-back'; node: string }
  | { news: 'conflict'; node: string; sinceMs: number; evidence: Record<string, number | string> }
  | { news: 'conflict-over'; node: string }
  | {
      /**
       * What its hello says is the most that its sensors can show, by channel, in the contract's
       * unit, and the span that each reading is the mean of, ms; of no other is anything said.
       */
      news: 'full-scale';
      node: string;
      maxByChannel: Record<string, number>;
      spanMsByChannel?: Record<string, number>;
    };

export interface NewsItem {
  atMs: number;
  node: NodeNews;
}
