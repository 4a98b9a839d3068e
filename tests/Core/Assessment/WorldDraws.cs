using System.Globalization;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>Draws worlds of a small case: parts from their priors, every threshold uniform, symptoms by their thresholds; checks weigh the
/// world by their likelihood, symptoms keep or drop it (unsure ones weigh it).</summary>
internal sealed class WorldDraws(SmallCase small, Random random)
{
    private readonly FaultModel _model = small.Model;
    private readonly WorldFindings _findings = new(small);

    /// <summary>Weight of the next world (0: it contradicts a symptom), and per part whether putting it right ends the complaint there.</summary>
    public double Next(out bool[] cured)
    {
        WorldOracle.Part[] parts = [.. _model.Components.Select(c => new WorldOracle.Part(State(small.Priors[c.Id]), 0))];
        var u = _model.Conditions.SelectMany(c => c.Effects).ToDictionary(e => e, _ => random.NextDouble());
        double background = random.NextDouble();
        var arrows = _model.Symptoms.SelectMany(s => s.Causes).ToDictionary(c => c, _ => random.NextDouble());
        var own = _model.Symptoms.ToDictionary(s => s.Id, _ => random.NextDouble());
        double weight = _findings.Checks(parts, Levels(parts));
        foreach (Symptom symptom in _model.Symptoms)
        {
            foreach ((Observation finding, _) in small.SymptomFindings(symptom.Id))
            {
                bool agrees = Shows(symptom, parts) == (finding.Outcome == "present");
                weight *= finding.Sure ? (agrees ? 1 : 0) : (agrees ? 0.75 : 0.25);
            }
        }

        Symptom[] complaint = [.. _model.Symptoms.Where(s => small.SymptomFindings(s.Id).Any(f => f.Finding.Outcome == "present"))];
        cured = [.. parts.Select((_, p) => complaint.All(s => !Shows(s, [.. parts.Select((x, i) => i == p ? x with { Mode = -1 } : x)])))];
        return weight;

        int[] Levels(WorldOracle.Part[] now)
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

        bool Shows(Symptom symptom, WorldOracle.Part[] now) =>
            own[symptom.Id] < symptom.Background || symptom.Causes.Any(c => arrows[c] < _findings.P(c, now, Levels(now)));
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
