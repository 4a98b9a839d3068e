using FuelHistory.Contracts;
using FuelHistory.Core.FaultModels;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Features.Findings;
using FuelHistory.Host.Features.Works;
using FuelHistory.Host.Http;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Features.Vehicles;

/// <summary>Fitted options: known to the fault model, and not against what the record says of the car.</summary>
public sealed class OptionRules(FaultModelFolder models, FindingStore findings, WorkStore works)
{
    public void Check(Step step, NewVehicle input)
    {
        if (input.Options is not { Count: > 0 } chosen || models.Find(input.System) is not { } model)
        {
            return;
        }

        foreach (var (id, choice) in chosen)
        {
            var here = $"/options/{FittedRules.Escaped(id)}";
            if (step.Faults.Known(here, $"option of {model.Id}", id, model.Options.Select(o => o.Id)))
            {
                step.Faults.Known(here, $"choice of {id}", choice, model.Options.First(o => o.Id == id).Choices.Select(c => c.Id));
            }
        }

        if (step.Car is { } car && step.Faults.None)
        {
            Recorded(step, car, model, chosen);
        }
    }

    /// <summary>What the record names is on the car: an entry must not lose its meaning by a choice made later.</summary>
    private void Recorded(Step step, Car car, FaultModel model, IReadOnlyDictionary<string, string> chosen)
    {
        var connection = step.Session.Connection;
        var found = findings.OfVehicle(connection, car).Where(f => f.Entry.VoidReason is null).ToList();
        var named = works.OfVehicle(connection, car.Vehicle.Entry.Id).Where(w => w.Entry.VoidReason is null).SelectMany(w => w.Components)
            .Concat(found.SelectMany(f => new[] { f.Component, f.Trial?.Component, f.Own?.Component }).OfType<string>()).ToHashSet();
        foreach (var component in named.Order(StringComparer.Ordinal))
        {
            if (FittedOptions.Without(model, chosen, component) is var (option, choice))
            {
                step.Faults.Add($"/options/{option.Id}", Problems.Unsuitable,
                    $"With \"{choice.Id}\" the car would not have \"{component}\", but work or a finding on it is recorded. Choose otherwise, or void those entries first.");
            }
        }

        var senseless = FittedChecks.Senseless(model, FittedOptions.Absent(model, chosen));
        foreach (var id in found.SelectMany(f => new[] { f.Check, f.Trial?.Trial }).OfType<string>().Where(senseless.Contains).Distinct().Order(StringComparer.Ordinal))
        {
            step.Faults.Add("/options", Problems.Unsuitable,
                $"With these options \"{id}\" makes no sense on the car, but a finding of it is recorded. Choose otherwise, or void that finding first.");
        }
    }
}
