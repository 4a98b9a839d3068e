using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Life;

/// <summary>What is believed of one component on a day: a weighted list of possible parts, carried forward through the record.</summary>
internal sealed class PartBelief
{
    /// <summary>Fitted dates on which an unknown part may have come in (MODEL.md 2: at least 32).</summary>
    private const int Grid = 32;

    /// <summary>Probability that cleaning or adjusting spoils a part that was ok (MODEL.md 2).</summary>
    public const double Spoilt = 0.02;

    private readonly Component _component;
    private readonly UsageSteps _steps;
    private readonly Func<PartQuality, double> _badWhenFitted;
    private List<FittedPart> _parts = [];
    private DateOnly _day;

    /// <param name="until">Up to when an unrecorded part may have been fitted.</param>
    public PartBelief(Component component, UsageSteps steps, Func<PartQuality, double> badWhenFitted, double notOriginal, DateOnly until)
    {
        (_component, _steps, _badWhenFitted, _day) = (component, steps, badWhenFitted, steps.First);
        FittedPart original = FittedPart.Original(component, steps.First);
        original.Weight = 1 - notOriginal;
        _parts.Add(original);
        if (notOriginal > 0)
        {
            _unknown = [.. GridDates(steps.First, until).Select(d => (d, notOriginal / Grid))];
        }
    }

    private readonly (DateOnly Day, double Weight)[] _unknown = [];
    private int _entered;
    private bool _untouched = true;

    /// <summary>The same belief, to be carried on another way.</summary>
    public PartBelief Copy() => new(this);

    private PartBelief(PartBelief other)
    {
        (_component, _steps, _badWhenFitted, _day) = (other._component, other._steps, other._badWhenFitted, other._day);
        (_unknown, _entered, _untouched) = (other._unknown, other._entered, other._untouched);
        _parts = [.. other._parts.Select(p => p.Copy())];
    }

    /// <summary>P(ok), then P(mode) in the model's order; sums to 1.</summary>
    public double[] Marginal()
    {
        double total = Weight;
        return [.. Weighted().Select(p => p / total)];
    }

    /// <summary>What the list weighs by now: 1, times the probability of all that was observed.</summary>
    public double Weight => _parts.Sum(p => p.Weight);

    /// <summary>The states as they weigh; sums to <see cref="Weight"/>.</summary>
    public double[] Weighted()
    {
        var sum = new double[_component.Modes.Count + 1];
        foreach (FittedPart part in _parts)
        {
            double w = part.Weight;
            sum[0] += w * part.Ok;
            for (int m = 0; m < part.Bad.Length; m++)
            {
                sum[m + 1] += w * part.Bad[m];
            }
        }

        return sum;
    }

    /// <summary>Ages every possible part to the day; unknown parts fitted on the way come in at their dates.</summary>
    public void AgeTo(DateOnly day)
    {
        for (; _entered < _unknown.Length && _unknown[_entered].Day <= day; _entered++)
        {
            FittedPart part = Fresh(_unknown[_entered].Day, PartQuality.Unknown, default);
            part.Weight = _unknown[_entered].Weight;
            part.Unrecorded = true;
            _steps.Age(part, part.Fitted, day);
            _parts.Add(part);
        }

        foreach (FittedPart part in _parts.Where(p => p.Fitted <= _day && day > _day))
        {
            _steps.Age(part, _day, day);
        }

        _day = day > _day ? day : _day;
    }

    /// <summary>A part is fitted with certainty <paramref name="sure"/>; otherwise all stays as it was.</summary>
    public void Fit(PartQuality quality, Exposure age, double sure)
    {
        _untouched = false;
        double total = _parts.Sum(p => p.Weight);
        FittedPart part = Fresh(_day, quality, age);
        part.Weight = total * sure;
        _parts.ForEach(p => p.Weight *= 1 - sure);
        _parts.RemoveAll(p => p.Weight <= 0);
        _parts.Add(part);
    }

    public void PutRight(double[] success)
    {
        _untouched = false;
        _parts.ForEach(p => p.PutRight(success, Spoilt));
    }

    /// <summary>Bayes with a likelihood per mode; ok has likelihood <paramref name="ok"/>.</summary>
    public void Observe(double ok, double[] modes)
    {
        _untouched = false;
        _parts.ForEach(p => p.Multiply(ok, modes));
    }

    /// <summary>The car ran well today. Each mode keeps only its unnoticed share; the rest would have been noticed, so it was put right
    /// before, at a time nobody recorded (two levels), unless the record is complete.</summary>
    /// <param name="unnoticed">Per mode: how likely the car would have done so with it.</param>
    public void RanWell(bool complete, double[] unnoticed)
    {
        List<FittedPart> unrecorded = complete ? [] : Unrecorded(unnoticed);
        _parts.AddRange(unrecorded);
        Observe(1, unnoticed);
        double total = _parts.Sum(p => p.Weight);
        _parts = [.. _parts.Where(p => p.Weight > 1e-12 * total)];
    }

    private List<FittedPart> Unrecorded(double[] unnoticed)
    {
        // 1. what would have been noticed on each part, spread over the dates between its fitting and today
        DateOnly from = _parts.Min(p => p.Fitted);
        if (from >= _day)
        {
            return [];
        }

        DateOnly[] dates = GridDates(from, _day);
        var weights = new double[Grid];
        foreach (FittedPart part in _parts)
        {
            Spread(weights, dates, part.Fitted, part.Weight * Noticed(part, unnoticed));
        }

        // 2. the parts that came in then, of unknown quality, as they are today; where nothing but time has passed, those that may have
        //    come in unrecorded are the same
        FittedPart[] fitted = [.. dates.Select(d =>
        {
            if (_untouched && _parts.Find(p => p.Unrecorded && p.Fitted == d) is FittedPart same)
            {
                return same.Copy();
            }

            FittedPart part = Fresh(d, PartQuality.Unknown, default);
            _steps.Age(part, d, _day);
            return part;
        })];

        // 3. the second level: those of them that would have been noticed in turn
        var second = new double[Grid];
        for (int j = 0; j < Grid; j++)
        {
            Spread(second, dates, dates[j], weights[j] * Noticed(fitted[j], unnoticed));
        }

        for (int j = 0; j < Grid; j++)
        {
            fitted[j].Weight = weights[j] + second[j];
        }

        return [.. fitted];
    }

    private static double Noticed(FittedPart part, double[] unnoticed)
    {
        double sum = 0;
        for (int m = 0; m < unnoticed.Length; m++)
        {
            sum += part.Bad[m] * (1 - unnoticed[m]);
        }

        return sum;
    }

    private static void Spread(double[] weights, DateOnly[] dates, DateOnly after, double mass)
    {
        int first = Array.FindIndex(dates, d => d > after);
        first = first < 0 ? dates.Length - 1 : first;
        for (int j = first; j < dates.Length; j++)
        {
            weights[j] += mass / (dates.Length - first);
        }
    }

    private FittedPart Fresh(DateOnly day, PartQuality quality, Exposure age) =>
        FittedPart.On(_component, day, _steps.At(day), age, _badWhenFitted(quality));

    /// <summary>The middles of equal spans between two days.</summary>
    private static DateOnly[] GridDates(DateOnly from, DateOnly to)
    {
        double span = (to.DayNumber - from.DayNumber) / (double)Grid;
        return [.. Enumerable.Range(0, Grid).Select(j => from.AddDays((int)((j + 0.5) * span)))];
    }
}
