using FuelHistory.Core.Life;

namespace FuelHistory.Core.Assessment;

/// <summary>Beliefs carried from one complaint to the next (MODEL.md 7): for every earlier closed complaint, what its findings and its
/// confirmed causes said of each component, as a likelihood that the life prior takes in on the day of the closing. Ageing since then,
/// and parts fitted since then, follow from the record as always.</summary>
internal static class CarryOver
{
    /// <summary>A likelihood nearer to even than this is not carried.</summary>
    private const double Even = 1e-3;

    /// <summary>The car's record with the beliefs of the complaints closed before this one began.</summary>
    public static CarRecord Of(CompiledModel model, AssessmentInput input, CancellationToken stop = default)
    {
        CarRecord car = input.Car;
        IEnumerable<ClosedComplaint> earlier = car.Closed
            .Where(c => c.Complaint.Id != input.Complaint.Id && c.ClosedOn <= input.AsOf && c.Complaint.Since <= input.Complaint.Since)
            .OrderBy(c => c.ClosedOn).ThenBy(c => c.Complaint.Id, StringComparer.Ordinal);
        foreach (ClosedComplaint closed in earlier)
        {
            car = car with { Carried = [.. car.Carried, .. Said(model, input with { Car = car, Complaint = closed.Complaint, AsOf = closed.ClosedOn }, closed, stop)] };
        }

        return car;
    }

    private static CarriedBelief[] Said(CompiledModel model, AssessmentInput input, ClosedComplaint closed, CancellationToken stop)
    {
        ModelIndex index = model.Index;
        Prepared prepared = Prepared.Of(model, input, stop);
        Situation situation = prepared.Situation.With(evidence: [.. prepared.Evidence.Items, .. Confirmed(index, prepared, closed)]);
        return Folding.Within(situation, (smaller, _) => smaller.States() is double[][] after && smaller.With(evidence: []).States() is double[][] before
            ? [.. Ratios(index, closed, before, after)]
            : Array.Empty<CarriedBelief>()) ?? [];
    }

    /// <summary>A confirmed cause counts like a defect seen, in the stretch before the repair that dealt with it; so a coincidence stays possible.</summary>
    private static IEnumerable<Evidence> Confirmed(ModelIndex index, Prepared prepared, ClosedComplaint closed)
    {
        foreach ((string component, string? mode) in closed.Causes.Where(c => index.HasPart(c.Component)))
        {
            PartIndex part = index.Parts[index.Part(component)];
            int repair = prepared.Investigation.Repairs.FindLastIndex(r => r.Any(w => RecordEntry.Covers(index.Model, w, part.Source)));
            int world = Math.Max(0, repair);
            double[] prior = prepared.Situation.Worlds.Prior(world, part.Index);
            yield return SeenEvidence.Of($"{closed.Complaint.Id}:{component}", world, part, new LookResult(true, mode), prior);
        }
    }

    private static IEnumerable<CarriedBelief> Ratios(ModelIndex index, ClosedComplaint closed, double[][] before, double[][] after)
    {
        foreach (PartIndex part in index.Parts.Where(p => !p.Source.Instrument && p.Id != ModelIndex.Elsewhere))
        {
            double[] ratio = [.. before[part.Index].Zip(after[part.Index], (b, a) => b > 0 ? a / b : 0)];
            if (ratio.Any(r => Math.Abs(r - 1) > Even))
            {
                yield return new CarriedBelief(closed.Complaint.Id, closed.ClosedOn, part.Id, ratio);
            }
        }
    }
}
