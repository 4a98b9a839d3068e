using System.Globalization;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>Draws worlds of a small case of one stretch without trials: parts from their priors, every threshold uniform; findings weigh the world.</summary>
internal sealed class WorldDraws(SmallCase small, Random random)
{
    private readonly FaultModel _model = small.Model;
    private readonly WorldFindings _findings = new(small);

    /// <summary>Weight of the next world, and per part whether putting it right ends the event there.</summary>
    public double Next(string item, out bool[] right)
    {
        WorldOracle.Part[] parts = [.. _model.Components.Select(c => new WorldOracle.Part(State(small.Priors[c.Id]), 0))];
        var u = _model.Conditions.SelectMany(c => c.Effects).ToDictionary(e => e, _ => random.NextDouble());
        double background = random.NextDouble();

        // one threshold per event and arrow, for all its cells
        var arrows = _model.Cells.SelectMany(c => c.Causes.Select(x => (c.Event ?? c.Id, x.Of))).Distinct().ToDictionary(a => a, _ => random.NextDouble());
        var own = SmallCase.Events.ToDictionary(e => e, _ => random.NextDouble());
        double weight = small.CheckFindings().Aggregate(1.0, (product, f) => product * _findings.Check(parts, Levels(parts, u, background), f.Finding, true, null));
        foreach (string name in SmallCase.Events)
        {
            foreach ((Observation f, _) in small.EventFindings(name))
            {
                weight *= _findings.Said(name, f).Aggregate(1.0, (product, said) =>
                {
                    bool agrees = Shows(name, said.Cells, parts) == said.Present;
                    return product * (f.Sure ? (agrees ? 1 : 0) : agrees ? 0.75 : 0.25);
                });
            }
        }

        bool[] open = _findings.Open(item, small.Findings.Count).Open;
        bool wrong = Shows(item, open, parts);
        right = [.. parts.Select((_, p) => wrong && !Shows(item, open, [.. parts.Select((x, i) => i == p ? x with { Mode = -1 } : x)]))];
        return weight;

        bool Shows(string name, bool[] cells, WorldOracle.Part[] now) => small.CellsOf(name).Where((_, c) => cells[c]).Any(cell =>
            own[name] < cell.Background || cell.Causes.Any(x => arrows[(name, x.Of)] < _findings.P(x, now, Levels(now, u, background))));
    }

    private int[] Levels(WorldOracle.Part[] now, Dictionary<Effect, double> u, double background)
    {
        var levels = new int[_model.Conditions.Count];
        for (int c = 0; c < levels.Length; c++)
        {
            Condition condition = _model.Conditions[c];
            int up = 0, down = 0;
            Add(c == 0 && condition.Background.Count > 0 ? WorldOracle.StepAt(condition.Background, background) : 0);
            foreach (Effect e in condition.Effects)
            {
                Add(e.Adds is not null
                    ? now[WorldOracle.PartOf(e.Of)].Mode == e.Of[^1] - '0' ? WorldOracle.StepAt(e.Adds, u[e]) : 0
                    : WorldOracle.StepAt(e.At!.GetValueOrDefault(levels[0].ToString(CultureInfo.InvariantCulture)), u[e]));
            }

            levels[c] = Math.Min(condition.Max, up) - Math.Min(-condition.Min, down);

            void Add(int step)
            {
                up += Math.Max(0, step);
                down += Math.Max(0, -step);
            }
        }

        return levels;
    }

    private int State(double[] prior)
    {
        double u = random.NextDouble();
        int state = 0;
        while (state < prior.Length - 1 && u >= prior[state])
        {
            u -= prior[state++];
        }

        return state - 1;
    }
}
