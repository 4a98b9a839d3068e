using System.Text.Json;
using System.Text.Json.Serialization;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Api;

/// <summary>Reading is strict about what must be there and lenient about what is new: members that a later host adds are passed over.</summary>
[JsonSourceGenerationOptions(JsonSerializerDefaults.Web, RespectNullableAnnotations = true, RespectRequiredConstructorParameters = true,
    NumberHandling = JsonNumberHandling.Strict)]
[JsonSerializable(typeof(Health))]
[JsonSerializable(typeof(Problem))]
[JsonSerializable(typeof(IReadOnlyList<Vehicle>))]
[JsonSerializable(typeof(RecordView))]
[JsonSerializable(typeof(IReadOnlyList<Complaint>))]
[JsonSerializable(typeof(IReadOnlyList<Limit>))]
[JsonSerializable(typeof(IReadOnlyList<Finding>))]
[JsonSerializable(typeof(IReadOnlyList<Instrument>))]
[JsonSerializable(typeof(IReadOnlyList<FaultModelHead>))]
[JsonSerializable(typeof(FaultModelView))]
[JsonSerializable(typeof(CheckView))]
[JsonSerializable(typeof(Assessment))]
[JsonSerializable(typeof(WhatIf))]
[JsonSerializable(typeof(WhatIfAnswer))]
[JsonSerializable(typeof(Settings))]
[JsonSerializable(typeof(Vehicle))]
[JsonSerializable(typeof(Complaint))]
[JsonSerializable(typeof(Limit))]
[JsonSerializable(typeof(Finding))]
[JsonSerializable(typeof(Instrument))]
[JsonSerializable(typeof(Odometer))]
[JsonSerializable(typeof(LayUp))]
[JsonSerializable(typeof(Incident))]
[JsonSerializable(typeof(Work))]
[JsonSerializable(typeof(JsonElement))]
[JsonSerializable(typeof(NewVehicle))]
[JsonSerializable(typeof(NewOdometer))]
[JsonSerializable(typeof(NewLayUp))]
[JsonSerializable(typeof(NewIncident))]
[JsonSerializable(typeof(NewWork))]
[JsonSerializable(typeof(NewLimit))]
[JsonSerializable(typeof(IReadOnlyList<LibraryLimit>))]
[JsonSerializable(typeof(Adoption))]
[JsonSerializable(typeof(NewComplaint))]
[JsonSerializable(typeof(NewFinding))]
[JsonSerializable(typeof(Closing))]
[JsonSerializable(typeof(ComplaintChange))]
[JsonSerializable(typeof(NewInstrument))]
[JsonSerializable(typeof(VoidRequest))]
internal sealed partial class ClientJson : JsonSerializerContext;
